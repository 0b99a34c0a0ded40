# The words of drawings and of papers beside the sheets: charts, advice, what if, where a value comes
# from, the front page, bundles, a season's papers, labels, the page to learn from, the index.

## Charts: a session as a line of time

chart-adults-free = adults free
chart-burns-here = a stove burns here
chart-all-or-line = all, or the line
chart-clock = Who is where, { $from } to { $until }. Letters are groups, numbers their learners.
chart-clock-about = A line of time with a lane for each place.
chart-bar = { $from }-{ $until } { $who }
chart-bar-lit = { $from }-{ $until } { $who }, a stove burns

## Charts: mass by nights, pressure by what is left

chart-pounds = pounds
chart-kilograms = kilograms
chart-nights = nights
chart-crossing =
    { $nights ->
        [one] { $number }: { $after } is lighter than { $before } from { $nights } night
       *[other] { $number }: { $after } is lighter than { $before } from { $nights } nights
    }
chart-crossing-line = crossing { $note }
chart-by-nights = { $stove }: { $one } for 1 night, { $some } for { $half }, { $most } for { $nights }
chart-masses = Stoves, containers and fuel at the start, by nights, all in one carry.
chart-masses-with-rings = Stoves, containers and fuel at the start, by nights, all in one carry. Rings: where two weigh the same.
chart-masses-about = Lines of what is carried at the start against the number of nights, one a stove.
chart-pressures = { $canister }: { $full } when it is lit, { $half } with half of that left, { $tenth } with a tenth
chart-least-pressure = least for this stove: { $least }
chart-stove-needs = stove needs { $least } kPa
chart-gauge-pressure = kPa above the air's pressure
chart-grams-left = grams of fuel left in the canister
chart-pressure = Pressure in the canister in use at each camp's coldest meal, when the stove is lit; it cools further as it burns.
chart-pressure-of-some = Pressure in the canister in use at each camp's coldest meal, when the stove is lit; it cools further as it burns. The { $most } camps of { $all } with the least pressure.
chart-pressure-about = Lines of gauge pressure against fuel left, one a camp.

## Charts: a canister through a meal

chart-flame-of = flame, of { $power } kW
chart-pressure-of = pressure, of { $gauge } kPa
chart-percent-of-lit = % of what it is when lit, or of the full flame
chart-minutes-of-flame = minutes of flame
chart-new-canister = a new canister
chart-canister-tagged = canister { $tag }
chart-after-minutes = after { $minutes }: { $gauge }, { $power }
chart-through = Through the meal that is hardest on it, { $meal } at { $camp }, { $canister } is { $verdict }: it cools as it burns, the pressure falls, and with it the flame.
chart-through-about = Lines of the flame and of the gauge pressure against the minutes of flame.

## Charts: fuel as a gauge

chart-start = start
chart-new-fuel = new fuel
chart-new = new
chart-night = night { $night }
chart-handed-out = handed out at { $camp }: { $level }
chart-at-the-start = at the start: { $level }
chart-gauge-beside = Line: as planned. Hatched: the band.
chart-gauge = { $kitchen }: grams of fuel in the containers at the start and after each night. Line: as planned. Hatched: the band it should lie in.
chart-gauge-about = A row of gauges of the fuel in the containers.
chart-after-night = after night { $night } at { $camp }: { $left } left, between { $low } and { $high }

## Charts: the camp from above

chart-steps = { $steps } of your steps
chart-camp-from-water = kitchen and camp from water: { $far }, { $steps }
chart-wash-water = wash water
chart-wash-from-water = wash water from water and from camp: { $far }, { $steps }
chart-each-side = each side
chart-apart = tents, kitchen and food store from one another: { $far }, { $steps }
chart-tents = tents
chart-food-store = food store
chart-kitchen = kitchen
chart-water = water
chart-places = From above, to scale: { $camps }. Tents and food store: by the rules of the place; keep flames and fumes away from tents.
chart-places-apart = From above, to scale: { $camps }. Tents, kitchen and food store so far apart where the land manager gives no other figure.
chart-places-about = Plan from above with water on the left.

## Charts: the stove with its pot

chart-push-of = A push of { $force }
chart-at-the-rim = at the rim tips it
chart-pot = pot
chart-water-in-pot = water
chart-centre-of-mass = centre of mass
chart-canister = canister
chart-tips-when-tilted = tips when tilted { $tilt }
chart-tipping-push = sideways push at the rim that tips it: { $push }
chart-tipping-tilt = tilt at which it tips: { $tilt }
chart-rim-height = rim above the ground: { $height }
chart-base = from the middle of the base to its nearest edge: { $base }
chart-stack = { $kitchen } with its { $pot } pot, to scale (a pot taken as tall as wide): { $stove } on firm level ground. Soft ground or a knock: less.
chart-stack-about = A stove with its pot from the side.

## Charts: stoves side by side, fuel by use, what to measure

chart-fuel = fuel
chart-stoves-containers = stoves, containers
chart-not-allowed = { $stove }: not allowed
chart-ruled-out =
    { $stove }: { $why ->
        [cold] too cold
        [wind] wind
       *[boil] never boils
    }
chart-ask = { $stove }: ask
chart-carried = { $stove }: { $start }, of it { $fuel } fuel
chart-stoves = Carried at the start, all kitchens together. Every bar begins at nothing; none is cut.
chart-stoves-about = Bars of the mass carried at the start, a family of stoves each.
chart-to-cook = to heat and cook
chart-to-melt = to melt snow
chart-to-light = to light the stove
chart-use-melting = { $name }: { $fuel }, of it { $melt } to melt snow
chart-use-lighting = { $name }: { $fuel }, of it { $light } to light the stove
chart-use-both = { $name }: { $fuel }, of it { $melt } to melt snow and { $light } to light the stove
chart-uses = Fuel by use, { $kitchen }: likely need of all nights, before spill.
chart-uses-about = Bars of the fuel for each use.
chart-of-the-spread = { $input }: { $percent } of the spread
chart-percent = { $percent }%
chart-spread = What to measure first: { $input }.
chart-spread-about = Bars of the share of the spread that each uncertain input causes.
chart-input-efficiency = efficiency of your stove
chart-input-wind = wind at the stove
chart-input-water = temperature of the water
chart-input-amount = amount of water used
chart-input-spill = fuel spilt
chart-input-loss = loss

## Advice

advice-this-place = this place
advice-pot-filling =
    { $now ->
        [one] Pot: { $meal } at { $camp } takes { $now } batch because a filling of the burner boils no more; a larger pot changes nothing.
       *[other] Pot: { $meal } at { $camp } takes { $now } batches because a filling of the burner boils no more; a larger pot changes nothing.
    }
advice-pot-bears = Above { $pot } this stove is warned of: the pot shuts heat in over the canister.
advice-pot-overhangs = One of { $pot } would stand out too far over its canister.
advice-pot-never-boils = One of { $pot } would lose more heat than this flame gives it at some meal.
advice-pot-one-batch = Pot: each meal goes in one batch; a larger pot would only lose more heat.
advice-pot-keep =
    { $now ->
        [one] Pot: keep yours; { $meal } at { $camp } takes { $now } batch, and no pot for this stove takes fewer.
       *[other] Pot: keep yours; { $meal } at { $camp } takes { $now } batches, and no pot for this stove takes fewer.
    }
advice-pot-larger =
    { $count ->
        [one] Pot: one of { $pot } takes { $meal } at { $camp } ({ $water } of water) in { $count } batch; yours take { $now }.
       *[other] Pot: one of { $pot } takes { $meal } at { $camp } ({ $water } of water) in { $count } batches; yours take { $now }.
    }
advice-pot-tilt = Full, it tips at a tilt of { $angle }: no promise, level the stove.
advice-melt = Snow at { $camp }: this stove melts about { $in_an_hour } an hour, so { $time } a day for { $a_day } to drink. Start before supper, with some water under the snow.
advice-burn-container = a full { $name } ({ $fuel } to burn)
advice-burn-filling = a filling of the burner ({ $fuel })
advice-burn = Flame to teach with: { $what } gives { $full } at full flame in warm air, { $least } at the least flame.
advice-burn-always-full = Flame to teach with: { $what } gives { $full }; it cannot be turned down.
advice-lightest = Lightest kit of the stoves that are not ruled out here: { $stove }, { $start } at the start with all that is in it.
advice-lightest-own = Lightest kit of the stoves that are not ruled out here: { $stove }, which you have, { $start } at the start with all that is in it.
advice-lightest-ask = Whether it may be lit here has to be asked.
advice-wind = Wind: a forecast holds for { $height } above the ground; over open, even ground about { $share }% of it reaches a stove. Below { $calm } plan for calm, below { $breezy } for breezy, above that for windy or for no flame. On ridges, in gaps and in gusts it is more: go by what you feel where the stove stands.

## One thing changed

change-as-planned = as planned
change-wind = { $wind } everywhere
change-more-wind = windier by one step
change-lids-on = lids on
change-no-lid = no lid
change-colder = { $by } colder
change-warmer = { $by } warmer
change-person-more = one person more in the kitchen
change-night-more = one night more at { $camp }
change-higher = { $by } higher, and colder for it
change-from-snow = all water from snow
change-larger-pot = the largest pot half as large again
change-stove = stove: { $stove }
trouble-stops = { $meal } never boils: it stops at { $at }
trouble-cannot-hold = cannot hold a simmer
trouble-canister = canister at { $meal }: { $verdict }
trouble-may-not-boil = may not boil in this wind
change-works = yes
change-look = look: { $why }

## Where a value comes from

from-the-trip = the trip's file says so
from-assumed = assumed, as the trip's file does not say
from-worked-out = worked out
from-fact-as-of = { $fact }, as of { $date }
from-rule-of-trip = a rule that the trip's file states
from-rule-of-none = the rule where no other is known
from-rule-of-place = a rule of the place { $place }
from-rule-checked = { $rule }, checked: { $checked }
why-assumed = Assumed: { $what }

## The front page

front-when = When
front-who = Who
front-fuel = Fuel, { $kitchen } ({ $fuel })
front-fuel-at = Fuel, { $kitchen } ({ $fuel }), { $place }
front-unknown = not stated: ask before leaving
front-fire-rule = Fire rule
front-emergency = Emergency
front-call = call { $number }
front-nearest-help = Nearest help
front-no-day = day not stated
front-nights =
    { $nights ->
        [one] { $starts }, { $nights } night
       *[other] { $starts }, { $nights } nights
    }
front-people =
    { $learners ->
        [one] { $learners } learner
       *[other] { $learners } learners
    } and { $instructors ->
        [one] { $instructors } instructor
       *[other] { $instructors } instructors
    }
front-people-diet = { $people }; diet: { $diet }

## Bundles, labels, marks, the foot of a page

bundle-tonight = For tonight
bundle-learners = For learners
bundle-field = For the field
bundle-office = For the office
bundle-all = Every sheet
bundle-about = its sheets in one file, in the order they are used; copies as each folder says
label-alt = Label: { $name }
mark-caption = Mark of { $name }
mark-alt = The mark of { $name }.
foot-content = Content of { $edition }.
foot-revision = Content of { $edition }. Revision { $revision }.
print-both-sides = both sides

## A season's papers

red-no-fire-rule = fire rule not known
red-no-stove = no stove may be lit
red-known-until = fire rule known only until { $until }
red-nobody-asked = nobody named who asked for the fire rule
red-no-first-day = no first day
red-no-number = no number to call
red-no-tare = canister { $tag } has no known tare
red-older = papers are older than the table
red-to-order = not on the shelf, to order: { $containers }
red-asked-after = fire rule asked for on { $asked }, after the first day
red-asked-long-before = fire rule asked for on { $asked }, more than a month before
red-tag-twice = { $tag } is with { $departure } too on these days
red-no-papers = no papers
red-no-papers-why = no papers: its row has a problem, or it is not made yet
season-title = Season: { $season }
season-departures = Departures
season-to-see-to = To see to
season-where = Where
season-way-list = Day list, and what to have ready
season-way-list-to-print = Day list, to print
season-way-workbook = This table as a workbook
season-way-csv = This table as CSV, for any spreadsheet
season-way-day = For the print shop: { $day }
season-way-day-part = For the print shop: { $day }, part { $part }
season-way-week = For the print shop: week of { $monday }
season-way-week-part = For the print shop: week of { $monday }, part { $part }
season-foot = Made from the table and from the packets that lie beside this folder.
season-days = { $title }: days
season-no-day = No day yet
season-come-back = Back this day: { $departures }
season-rows-left-out = rows not taken, see the program's message
season-back = back
season-departure = Departure
season-trip = Trip
season-take = Take
season-see-to = See to
season-order-no-day = no day yet
season-week-of = week of { $monday }
season-to-have-ready = To have ready
season-new-containers = New containers, beside the part-used ones named above; what cannot be reused in a part-used one is in these counts.
season-week = Week
season-container = Container
season-count = Count
slip = Change slip
slip-about = what changed since the papers that were made before
slip-title = Changed papers: { $departure }
slip-take-out = Revision { $new } takes the place of revision { $old }. Take the older papers out of every bag and bin them.
slip-places = Places
slip-nothing = nothing
slip-inside = What stands in front of the packet is as it was; something inside it changed.
slip-what = What
slip-was = Was
slip-is = Is
shop-the-week-of = the week of { $monday }
shop-part = { $title }, part { $number } of { $of }
shop-packets-of = Packets of { $what }
shop-how-much =
    { $departures ->
        [one] { $departures } departure
       *[other] { $departures } departures
    }: { $sides ->
        [one] { $sides } side
       *[other] { $sides } sides
    } printed, each sheet once; { $leaves ->
        [one] { $leaves } leaf
       *[other] { $leaves } leaves
    } of paper with all copies.
shop-how-to-print = Print on both sides: each departure starts on a leaf of its own, with its name and how many copies of each sheet it takes.
shop-at-the-end =
    { $sheets ->
        [one] The return sheet lies at the end, behind a list of them: they stay in the store room.
       *[other] The { $sheets } return sheets lie at the end, behind a list of them: they stay in the store room.
    }
shop-leaves-on = Leaves on
shop-revision = Revision
shop-sides = Sides
shop-leaves = Leaves with copies
shop-not-known = not known
shop-of-revision = Revision { $revision }
shop-before-leaving = See to it before leaving:
shop-sheet = Sheet
shop-copies = Copies
shop-sheet-at-the-end = { $sheet }, at the end
shop-return-sheets = Return sheets: { $what }
shop-returns = Return sheets
shop-tick = They lie behind this list in its order. Tick a departure when everything on its sheet is back and weighed.
shop-back-on = Back on
shop-to-come-back = To come back
shop-here = Here

## The page to learn from, the practice sheet

learn-title = Learn for the check: { $trip }
learn-note = Everything here stays on this device. No flame without an adult beside you.
learn-about = to learn from by oneself, on a screen
practice-title = Practice
practice-about = problems to work with a pencil
practice-key-title = Practice: key
practice-key-about = every problem worked line by line, and what counts as right

## The index of a packet

index-way-learners = Sheets for learners
index-way-staff = Sheets for staff: keys, plans and records
index-along = What goes along
index-first = Print first
index-for-learners = { $title }: for learners
index-note-learners = Sheets to hand out. Keys lie with the staff.
index-for-staff = { $title }: for staff
index-note-staff = Keys, plans and records: keep this folder away from learners.
index-front-page = Front page of this packet
index-sheets = Sheets and how to print them
index-paper =
    { $leaves ->
        [one] All of it in the copies named: { $leaves } leaf of paper.
       *[other] All of it in the copies named: { $leaves } leaves of paper.
    }
index-sides =
    { $pages ->
        [one] { $pages } side; { $print }
       *[other] { $pages } sides; { $print }
    }
index-older = { $format } (older than the trip as it is now)
index-link-pdf = PDF, to print
index-link-html = on screen
index-link-md = text
index-link-docx = word processor
