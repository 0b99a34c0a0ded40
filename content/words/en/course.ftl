# The words of the course: practice problems with their keys, and what is said of a timetable.

## Lines of the sums

sum-boils-for = boils for { $meal }
sum-base-radius-legs = base radius of the legs
sum-bleach = bleach
sum-bleach-bowl = bleach for the bowl
sum-bleach-for-a-litre = bleach for 1 L
sum-bleach-of-label = bleach of { $label } % for 1 L
sum-bleach-trip = bleach for the trip
sum-boiling-water-day = boiling water a day
sum-boils-pot = boils of { $amount } { $unit } in a pot of { $pot } { $unit }
sum-boils-trip = boils of the trip
sum-burnt-on-first-day = burnt on the first day
sum-cooler-by = cooler by
sum-days-rate = days at that rate
sum-empty = { $name }, empty
sum-fall = fall
sum-fillings = fillings for { $meal }
sum-for-all-kitchens = for all kitchens
sum-for-the-trip = for the trip
sum-fuel = fuel
sum-fuel-1-from = fuel for 1 { $unit }, from { $from_words }, at { $height_words }
sum-fuel-1-from-snow = fuel for 1 { $unit } from snow of { $words }, { $goal }
sum-fuel-in-all = fuel in all
sum-fuel-left = fuel left
sum-fuel-left-counts = fuel left that counts
sum-fuel-left-in = fuel left in { $letter }
sum-heat-all = heat in all
sum-heat-gram = heat in a gram of { $fuel }
sum-heat-into-its-water = heat into its water
sum-how-many-times-much = how many times as much
sum-in-celsius = { $what }, in °C
sum-in-litres = in litres
sum-in-litres-of = { $what } in litres
sum-larger-two = the larger of the two
sum-likely-fuel = likely fuel
sum-minutes = minutes
sum-minutes-1-from-with = minutes for 1 { $unit } from { $words } with { $power } kW
sum-new-canister-gives = what a new { $new } gives
sum-new-canisters = new canisters
sum-one-filling = one filling
sum-push = push
sum-push-1 = push for 1 { $mass_unit }
sum-push-on-canister = push, on the canister
sum-push-on-legs = push, on the legs
sum-share-climb = share of the climb
sum-simmer = simmer
sum-snow = snow
sum-steps = steps
sum-steps-line-mean = steps for the line, in the mean
sum-steps-over = steps of { $step_words } over { $far }
sum-still-missing = still missing
sum-time-suppers-water = time for supper's water
sum-times-long = times as long
sum-to-carry-with-spare = to carry for { $likely } g with { $percent } % spare
sum-usable-of-that = of that it can use
sum-water = water
sum-water-boils-at-height = water boils at { $height }
sum-water-boils-there = water boils at
sum-water-drink = water to drink
sum-water-for-meal = water for { $meal }
sum-water-start = water at the start
sum-water-trip = water for the trip
sum-water-wanted = water wanted
sum-weigh-out = to weigh out
sum-whole-canisters = whole canisters
sum-whole-days = whole days
sum-whole-steps = whole steps
sum-with-full-pot = with a full pot
sum-with-one-day-more = with one day more
sum-with-spare-share = with the spare share
sum-with-the-spare = with the spare
sum-your-step = your step
sum-canister-counts = what counts of a full canister
sum-canisters-needed = canisters that it takes
sum-fuel-a-day-now = fuel a day now
sum-fuel-now = fuel now
sum-fuel-trip-now = fuel for all days now
sum-one-boil = one boil: { $scene }
sum-times-as-many = times as many people
sum-times-as-much = times as much as planned

## Problems, their tables and cautions

practice-and-holds = { $some }, { $more }
practice-cooler-and = { $some }, { $more }
practice-cooler-times = { $by } °C { $times }
practice-from-to = { $least } to { $most }
practice-fuel-holds = { $fuel } { $heat } kJ
practice-table-above = The table is the one under “{ $topic }: { $level }”.
practice-three-canisters = { $a }, { $b } and { $c }
practice-two-canisters = { $a } and { $b }
practice-within-some =
    { $unit ->
        [steps]
            { $by ->
                [one] within { $by } step
               *[other] within { $by } steps
            }
       *[other] within { $by } { $unit }
    }
practice-1-qt-0-9464 = 1 qt is 0.9464 L. °C = (°F − 32) x 5 / 9. Fuel is weighed in grams.
practice-base-own = a base of its own
practice-base-radius = Base radius
practice-begin-with-some-water = Begin with some water in the pot: over dry snow the pot scorches. Melted snow is raw water: treat it as the land manager says.
practice-between-two-rows-boiling = Between two rows the boiling point falls evenly, near enough: take the share of the climb that you have done, and take that share of the fall.
practice-bleach-bowl-ppm = Bleach for a bowl of { $ppm } ppm
practice-bleach-last-bowl = Bleach for the last bowl
practice-bleach-with-another-cleaner = Bleach with another cleaner, an acid or ammonia gives off a gas that can kill. Plain, unscented bleach only, into clean water, with gloves and eyes away from the splash.
practice-boil-sea = to the boil, by the sea
practice-boils-c = boils at, °C
practice-boils-each-pot-filled = Boils, each pot filled to { $share } of what it holds
practice-boils-f = boils at, °F
practice-boils-pot = Boils for a pot
practice-brought-boil-sea = brought to the boil by the sea
practice-burner-kw-heats-water = A burner of { $power } kW heats { $water } of water from { $from } at { $camp }; { $share } of its heat reaches the pot. How many minutes until it boils?
practice-canister = Canister
practice-canister-2 = a canister
practice-canisters-go-on-trip = Canisters { $said } go on the trip. How many grams of fuel are in them together?
practice-canisters-scales-marked-grams = Canisters and scales are marked in grams.
practice-count-g-every-canister = Count { $residue } g of every canister, new or used, as lost: the flame is too weak for them.
practice-distance = Distance
practice-distance-land-managers-ask = The distance is the land manager's: ask for it. Count flat steps with what you will carry.
practice-drink = to drink, { $drink }
practice-drink-2 = to drink
practice-empty-g = empty, g
practice-exactly = exactly
practice-fuel-left-canister = Fuel left in a canister
practice-fuel-left-g = fuel left, g
practice-fuel-meal = Fuel for a meal
practice-fuel-when-full-g = fuel when full, g
practice-full-g = full, g
practice-g-canister = { $grams } g canister
practice-grams-bring-1-boil = Grams of { $gas } that bring 1 { $unit } to the boil, { $efficiency } % of the heat in the pot
practice-grams-carry-spare-added = Grams to carry, spare added and rounded up to 5 g
practice-grams-make-1-water = Grams of { $gas } that make 1 { $unit } of water from snow, { $efficiency } % of the heat in the pot
practice-group-washes-up-times = A group washes up { $washes } times a day for { $days } days, each time with a last bowl of { $litres } L at { $ppm } ppm. The label says { $label } %. How many millilitres of bleach does it pack?
practice-heat-gram-stove-passes = Heat in a gram: { $heats }. The stove passes on its share of it.
practice-height = Height
practice-height-boiling-point = Height and boiling point
practice-kilowatt-1-kj-second = A kilowatt is 1 kJ a second, 60 kJ a minute.
practice-kitchen-burns-about-g = A kitchen burns about { $day } g a day for { $days } days and carries { $percent } % spare, rounded up to 5 g. How many grams is that?
practice-kitchen-burns-about-g-day = A kitchen burns about { $day } g a day for { $days } days. It carries { $percent } % spare or fuel for one day more, whichever is more, rounded up to 5 g. How many grams is that?
practice-kitchen-fetches-water-how = A kitchen at { $height } fetches water at { $water }. How many grams of { $gas } bring { $volume } to the boil?
practice-kitchens-burn-about-g = { $kitchens } kitchens burn about { $likely } g each, and each carries { $percent } % spare. How many grams do they carry in all?
practice-kj-warm-1-l = { $water_heat } kJ warm 1 L of water by 1 °C.
practice-kj-warm-snow-1 = { $ice } kJ warm the snow of 1 L of water by 1 °C, up to 0 °C; { $fusion } kJ melt it.
practice-last-bowl-holds-l = The last bowl holds { $litres } L and should be at { $ppm } ppm. The label says { $label } %. How many millilitres of bleach go in?
practice-last-bowl-holds-l-should = The last bowl holds { $litres } L and should be at { $ppm } ppm. The label says { $label } %. How many millilitres of bleach go in?
practice-last-g-canister-not = The last { $residue } g of a canister are not counted: the flame is too weak by then.
practice-lentils-simmer-minutes-sea = Lentils simmer { $simmer } minutes by the sea. How many minutes do they take at { $words }?
practice-likely-fuel-g = Likely fuel, g
practice-millilitres-bleach-litre-water = Millilitres of bleach for a litre of water = ppm / (10 x the label's percent).
practice-minutes-bring-1-boil = Minutes that bring 1 { $unit } to the boil by the sea, { $efficiency } % of the heat in the pot
practice-minutes-stove = Minutes at the stove
practice-ml-1-l-water = mL for 1 L of water
practice-off-g = off by, g
practice-on-label = On the label
practice-on-line-you-count = On a line of { $long } you count { $first }, { $second } and { $third } steps. With a full pot you step a tenth shorter. The wash water goes { $far } from the lake. How many steps with the pot is that?
practice-on-top-canister-base = { $words }. On top of a canister the base has a radius of { $base } { $small } and the rim is { $rim } { $small } up; on { $legs } legs that reach { $reach } { $small } from the middle it is { $other } { $small } up. How many times the push does the stove on legs stand?
practice-people-drink-person-day = { $people } people drink { $words } a person and day for { $days } days, all of it from snow of { $snow } brought to { $to }. { $share } of the heat of { $gas } reaches the pot. How many grams does the drinking water take, rounded up to 5 g?
practice-people-nights-supper-takes = { $people } people, { $nights } nights. Supper takes { $supper } of boiling water a person, breakfast { $breakfast }. The stream is at { $from }, the camp lies at { $camp }, and { $share } of the heat of { $fuel } reaches the pot. Add { $percent } % to spare and round up to 5 g. How many grams are carried?
practice-people-nights-supper-takes-boiling = { $people } people, { $nights } nights. Supper takes { $supper } of boiling water a person, breakfast { $breakfast }. The kitchen has one pot of { $pot }. How many boils does it plan for the whole trip?
practice-people-take-boiling-water = { $people } people take { $supper } of boiling water each for supper. The pot holds { $pot }. How many boils is that?
practice-plan-trip = plan the trip
practice-pot = pot of { $pot } { $unit }
practice-pot-can-boil-early = A pot can boil early, spill or tip: the minutes are for planning. Stay with every lit stove.
practice-pot-filled-what-holds = A pot is filled to { $share } of what it holds. Boils are whole: round up.
practice-pot-more-than-about = A pot of more than about { $percent } % boils over on hands and flame. Lift small pots, in gloves, rather than one that you cannot hold level.
practice-pot-tips-scalds-knock = A pot that tips scalds. A knock needs less than this slow push, and soft ground sinks first: set the stove level and firm, handles in, nobody sitting below the rim.
practice-push-rim-mass-x = Push at the rim = mass x { $gravity } x base radius / height of the rim. 1 N is the weight of about 100 g.
practice-push-rim-tips-stack = Push at the rim that tips the stack, { $push } for each { $mass } of it
practice-push-rim-weight-x = Push at the rim = weight x base radius / height of the rim. It is a force, said as the weight that would press as hard.
practice-push-tips-pot = The push that tips a pot
practice-read-off-table = read it off the table
practice-rim = rim at { $rim } { $small }
practice-sea-burner-kw-heats = By the sea, a burner of { $power } kW heats { $volume } of water from { $words }. How many minutes until it boils?
practice-shelf-canisters = The shelf of canisters
practice-shelf-weighed-today = The shelf, weighed today
practice-simmering-takes-times-long = Simmering takes { $factor } times as long for each 10 °C that water boils cooler (common practice): { $factor }^(cooler / 10). By steps: { $factors }.
practice-snow = Snow
practice-snow-how-many-grams = The snow is at { $words }. How many grams of { $gas } make { $volume } of water { $goal }?
practice-spare = { $percent } % spare
practice-spare-fuel = Spare fuel
practice-spare-wind-spills-one = Spare is for wind, spills and one more night, and comes home full. The leader says how much.
practice-stamped-empty-g = stamped empty, g
practice-stamped-g-empty-weighs = A { $name } is stamped { $tare } g empty. It weighs { $weighed } g. How many grams of fuel are left in it?
practice-stamped-g-empty-weighs-g = A { $name }, stamped { $tare } g empty, weighs { $weighed } g in the morning and { $after } g the next morning. { $residue } g in it cannot be burnt. For how many more whole days of the same cooking does it last?
practice-stands-on-with-radius = { $words }; it stands on { $feet } with a radius of { $base } { $small } and the rim is { $rim } { $small } up. What sideways push at the rim tips it, in { $unit }?
practice-step = step { $step }
practice-steps-distance-length-your = Steps = distance / length of your step, up to the next whole one.
practice-steps-length-your-step = Steps by the length of your step
practice-steps-water = Steps to water
practice-stove-on-four-legs = A stove on four legs tips over the line between two feet: its base radius is 0.71 of a leg's reach; on three legs 0.5 of it.
practice-stove-pot-water-together = Stove, pot and water together weigh { $mass } { $unit }
practice-strength-warmth-time-bowl = Strength, warmth and time in the bowl are the health department's: use its numbers, and the label's. Test strips tell what the bowl has.
practice-supper-takes-boiling-water = Supper takes { $water } of boiling water. The stream is at { $from }, the camp lies at { $camp }, and { $share } of the heat reaches the pot. How many grams of { $fuel } does it take?
practice-supper-takes-boiling-water-there = Supper takes { $amount } of boiling water, and there is one pot of { $pot }. How many boils is that?
practice-supper-takes-boils-one = Supper takes { $boils } boils, one after the other, of { $water } each, from { $from } at { $camp }. The burner has { $power } kW, { $share } of its heat reaches the pot, and each boil needs { $set_up } min to set up. How many minutes from the start of the first set-up to the last boil?
practice-tag = Tag
practice-these-sums-without-pots = These are sums without the pot's own heat, wind or spills, and the stove's share is assumed until you measure yours. Carry what the trip's own fuel worksheet says.
practice-trip-needs-g-fuel = The trip needs { $need } g of fuel. Canisters { $said } are used up first; the rest comes from new ones, each a { $new }. How many new ones are needed?
practice-usual-masses-canisters-one = Usual masses of canisters; one without a stamp may be off by the last column
practice-wash-water-goes-from = The wash water goes { $far } from the lake, and your step is { $step }. How many steps is that?
practice-water = Water
practice-water-from-snow = Water from snow
practice-water-start = Water at the start
practice-weigh-canisters-off-stove = Weigh canisters off the stove, valve closed, away from flame. Never pierce or refill one; an empty one is known by its weight, not by silence.
practice-weighs-g = weighs, g
practice-weighs-g-how-many = A { $name } weighs { $weighed } g. How many grams of fuel are left in it?
practice-what-carried-rounded-up = What is carried is rounded up to the next 5 g.
practice-where-water-boils-usual = Where water boils in usual weather (standard atmosphere, steam tables)
practice-within = within { $percent } %
practice-within-before-rounded-up = within { $percent } % before it is rounded up
practice-work-out = work it out
practice-you-move-camp-from = You move camp from { $low } up to { $high }. By how many { $unit } does water boil cooler?
practice-you-want-water-drink = You want { $words } of water to drink at { $to }, made from snow of { $snow }. { $share } of the heat reaches the pot. How many grams of { $gas } does it take?
practice-your-camp-lies-how = Your camp lies at { $words }. At how many { $unit } does water boil there?
practice-grams-one-boil = Grams of { $gas } for one boil of { $water } in a pot of { $pot }, by the sea, on a burner that stands on its canister in natural shelter; the air as warm as the water
practice-if-and = { $some } { $more }
practice-if-boils = The plan counts { $boils } boils: { $scene }. { $changes } How many grams of { $gas } do they take now?
practice-if-canisters = { $scene } Canisters come full, each a { $canister }. How many are needed for { $days } days now?
practice-if-colder = The night is { $by } colder, and the water is at { $to }.
practice-if-day = { $scene } How many grams a day is that now?
practice-if-day-scene = A kitchen of { $people } people plans { $fuel } g of { $gas } a day: { $scene }. { $changes }
practice-if-guests = { $more } more people come.
practice-if-lasts = { $scene } One full { $canister } was to last { $days } days. For how many whole days does it last now?
practice-if-no-lid = The lid is left at home.
practice-if-wind = The wind rises: { $wind } now, up to { $by }.
practice-more-people-more-fuel = Fuel grows as the number of people does, near enough.
practice-no-screen-all-round = Never make up for wind with a screen all round a burner on its canister: the canister overheats and can burst. Move into shelter, or wait.
practice-scene = { $stands }, water at { $water }
practice-what-if = What if: one thing changes
practice-what-if-is-no-plan = The table is for one stove and one pot, with the middle of what is likely. Carry what the trip's own fuel worksheet says.
practice-wind-and-lid = Wind and lid
practice-wind-classes = Wind where the stove stands: calm is up to { $calm }, breezy up to { $breezy }, windy up to { $windy }. In more than that nothing is lit in the open.
practice-wind-lid = { $wind }, lid on
practice-wind-no-lid = { $wind }, no lid
practice-within-table = within { $percent } %, as the table is rounded

## What is brought

kit-second-burner = second { $stove } burner, the same
kit-bench-stove = stove without fuel, for a place without one

## Units that are words

unit-boils = boils
unit-canisters = canisters
unit-days = days
unit-steps = steps
unit-times = times

## Why a segment or subject is left out of a timetable

left-out-no-room = no room in the minutes
left-out-indoors = it needs a flame, and indoors nothing is lit
left-out-no-adult = it needs a flame, and no adult would be free for those who wait
left-out-ban = the fire rule in force allows no stove for it
left-out-outdoors-only = it needs open ground
left-out-opens-fuel = fuel is handled in it, and indoors there is none
left-out-light = the hour does not have the light for certain
left-out-not-here = no part of it belongs to these rules, stoves and place
left-out-waits = some would wait too long for their turn

## What is done for an objective

covered-shown = shown
covered-practised = practised
covered-practised-lit = practised lit
covered-assessed = assessed
