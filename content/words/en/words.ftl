# The words of the program's own lists, as files write them: what a language must have its own word for.
# `word-` and the English word with hyphens, without commas and full stops. Of two lists that have the same
# word in two senses the second has the name of its list before it: `word-LIST-WORD`.

## What a file plans

word-trip = trip
word-lesson = lesson

## Meals, and what else takes fuel

word-supper = supper
word-breakfast = breakfast
word-lunch = lunch
word-drinks = drinks
word-snow = snow
word-treatment = treatment
word-washing = washing

## Arrival

word-road = road
word-air = air
word-boat = boat
word-foot = foot

## Paper and units

word-letter = letter
word-a4 = A4
word-us = US
word-metric = metric
word-both = both

## Spare

word-none = none
word-one-extra-day = one extra day
word-two-extra-days = two extra days

## Which stoves the land manager allows

word-yes = yes
word-with-a-shut-off-valve = with a shut-off valve
word-no = no
word-unknown = unknown

## Families of stoves, kinds of fuel

word-canister-on-top = canister on top
word-heat-exchanger = heat exchanger
word-canister-beside = canister beside
word-white-gas = white gas
word-kerosene = kerosene
word-alcohol = alcohol
word-tablet = tablet
word-canister = canister
word-bottle = bottle
word-pack = pack

## Canisters: connection, feed, what they give

word-thread = thread
word-clip = clip
word-pierce = pierce
word-vapour = vapour
word-liquid = liquid
word-fine = fine
word-slow = slow
word-weak = weak
word-will-not-work = will not work

## Wind and windscreens

word-calm = calm
word-breezy = breezy
word-windy = windy
word-natural = natural
word-partial = partial
word-full = full
word-built-in = built-in

## Signal words

word-danger = danger
word-warning = warning
word-caution = caution
word-notice = notice

## Moments of a kitchen's day

word-set-up = set up
word-light = light
word-cook = cook
word-clean-up = clean up
word-night = night
word-leave = leave
word-home = home
word-trouble = trouble

## Water

word-tap = tap
word-boil = boil
word-filter = filter
word-chemical = chemical
word-uv = UV
word-stream = stream

## Washing and eating

word-wipe-and-rinse = wipe and rinse
word-two-pots = two pots
word-three-bowls = three bowls
word-three-bowls-with-hot-dip = three bowls with hot dip
word-own-bowls = own bowls
word-shared-pot = shared pot
word-from-the-pouch = from the pouch

## Whose rule of boiling

word-cdc = CDC
word-cdc-travel = cdc travel
word-epa = EPA
word-health-canada = health canada
word-who = WHO

## The course: for whom, sessions

word-scout = scout
word-adult-beginner = adult beginner
word-instructor-candidate = instructor candidate
word-teach = teach
word-teach-back = teach-back
word-check = check

## Questions and sums

word-choice = choice
word-number = number
word-order = order
word-short = short
word-spot-the-fault = spot the fault
word-what-now = what now
word-boils = boils
word-spare = spare
word-steps = steps
word-bleach = bleach
word-push = push
word-fuel = fuel
word-height = height
word-minutes = minutes
word-shelf = shelf

## Parts of a lesson, light

word-talk = talk
word-show = show
word-say-it = say it
word-dry-run-unlit = dry run unlit
word-do-together = do together
word-you-do-it-i-stand-beside = you do it, I stand beside
word-daylight = daylight
word-dusk = dusk

## The bag of a kitchen

word-fire = fire
word-wash = wash
word-safety = safety
word-repair = repair

## Where a figure is from

word-published = published
word-common-practice = common practice
word-assumption = assumption
word-seen = seen
word-seen-mirror = seen mirror
word-second-hand = second-hand
word-derived = derived
word-memory = memory
word-confidence = confidence

## Rules of a place

word-greywater-distance = greywater distance
word-greywater-from = greywater from
word-greywater-method = greywater method
word-soap-use = soap use
word-soap-distance = soap distance
word-food-storage = food storage
word-fire-stoves = fire stoves
word-fire-clear = fire clear
word-burying = burying
word-camp-distance = camp distance
word-fuel-storage = fuel storage

## What is compared with the usual

word-meal-water = meal water
word-simmer-time = simmer time
word-drinking = drinking
word-elevation = elevation
word-day-air = day air
word-night-air = night air
word-water = water
word-heating-value = heating value
word-propane = propane
word-step-length = step length
word-youngest = youngest
word-year = year
word-pots-a-person = pots a person
word-pot-mass-a-litre = pot mass a litre
word-fuel-above-night = fuel above night
word-adults-by-children = adults by children
word-children-alone = children alone
word-session-length = session length
word-sessions = sessions
word-fallback-share = fallback share

## The shelf

word-receive = receive
word-weigh = weigh
word-reserve = reserve
word-issue = issue
word-drop = drop
word-return = return
word-quarantine = quarantine
word-burn-down = burn down
word-retire = retire
word-lost = lost
word-correct = correct
word-label = label
word-scale = scale
word-table = table

## Copies of a sheet

word-one = one
word-one-a-kitchen = one a kitchen
word-one-a-learner = one a learner
word-one-a-person = one a person
word-one-an-instructor = one an instructor
word-one-an-instructor-one-for-a-lesson = one an instructor; one for a lesson
word-one-for-two-learners = one for two learners
word-one-for-six-learners = one for six learners
word-shown-not-printed = shown, not printed

## What an assumption is about: the key

word-key-water-from = water from
word-key-water = water
word-key-water-treatment = water treatment
word-key-last-meal = last meal
word-key-first-meal = first meal
word-key-boil-rules = boil rules
word-key-eating = eating
word-key-washing = washing
word-key-spare = spare
word-key-confidence = confidence
word-key-units = units
word-key-menu = menu
word-key-place = place
word-key-day = day
word-key-night = night
word-key-wind = wind
word-key-drinking = drinking
word-key-lid = lid
word-key-windscreen = windscreen
word-key-pots = pots
word-key-blend = blend
word-key-connection = connection
word-key-people = people
word-key-instructors = instructors
word-key-adults-per-lit-stove = adults per lit stove
word-key-step-length = step length
word-key-kitchens = kitchens
word-key-stations = stations
word-key-course = course
word-key-level = level
word-key-minutes = minutes
word-key-starts = starts
word-key-fallback = fallback
word-key-focus = focus
word-key-canisters-on-hand = canisters on hand
word-key-measured = measured
word-key-sessions = sessions
word-key-camps = camps
word-key-known = known

## What is assumed, and the gases of a canister

word-cold = cold
word-outdoors = outdoors
word-indoors = indoors
word-isobutane = isobutane
word-aluminium = aluminium
word-titanium = titanium
word-stainless = stainless
word-n-butane = n-butane

## The same word in another list, in another sense

word-family-white-gas = white gas
word-family-kerosene = kerosene
word-family-alcohol = alcohol
word-family-tablet = tablet
word-fuel-canister = canister
word-moment-pack = pack
word-bag-cook = cook
word-spare-none = none
word-distance-none = none

## Numbers

decimal-mark = .
