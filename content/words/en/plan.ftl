# The words of what is worked out: a line each, under the id by which the program asks for it.
# Project Fluent's syntax. What stands in a sentence is named: `$camp` is a camp's name.

## What a person wrote, a quantity

as-written = { $words }
to-verify = { $what } (verify)

## Lines of a working

part = { $meal }
part-to = { $meal } to { $at } °C
batches-none = none
batches-in-pot =
    { $count ->
        [one] { $litres } L in { $pot }
       *[other] { $count } x { $litres } L in { $pot }
    }
batches-and = { $some }, { $more }
line-at-confidence =
    { $leg ->
        [0] need that { $percent } of 100 such trips stay under, rounded up
       *[other] leg { $leg }: need that { $percent } of 100 such trips stay under, rounded up
    }
line-batches = batches: { $batches }
line-carry =
    { $leg ->
        [0] take the larger ({ $larger } g), up to the next full step
       *[other] leg { $leg }: take the larger ({ $larger } g), up to the next full step
    }
line-from-snow = water wanted from snow
line-from-snow-in-litres = water wanted from snow, in litres
line-fuel-at = fuel at { $camp }
line-fuel-at-this-place = fuel at this place
line-fuel-of-leg = leg { $leg }: fuel
line-fuel-to-hold = fuel to hold the boil, each batch in its own pot
line-fuel-to-simmer = fuel to simmer, each batch in its own pot
line-heat-of-stage =
    { $stage ->
        [ice] heat to warm the snow in the { $pot } pot
        [melt] heat to melt the snow in the { $pot } pot
       *[water] heat to warm the water in the { $pot } pot
    }
line-in-celsius = { $what } in °C
line-left-behind-screen = what is left of it, windscreen { $screen }, { $wind }
line-likely =
    { $leg ->
        [0] likely need, { $percent } % spilt
       *[other] leg { $leg }: likely need, { $percent } % spilt
    }
line-mass = mass: burner, pot, water
line-mass-on-canister = mass: shell, last fuel, burner, pot, water
line-minutes-of-flame = minutes of flame at { $power } kW
line-minutes-of-flame-cold = minutes of flame at { $power } kW, what the cold canister leaves
line-minutes-of-stage =
    { $stage ->
        [ice] minutes to warm the snow
        [melt] minutes to melt the snow
       *[water] minutes to warm the water
    }
line-minutes-with-set-up = minutes with set-up
line-minutes-with-waits = minutes with set-up and the waits until the burner is cold
line-pot-loses = heat that the { $pot } pot, as tall as wide, loses for each °C above the air, { $wind }
line-snow = snow
line-spare-days =
    { $leg ->
        [0] spare days
       *[other] leg { $leg }: spare days
    }
line-stays-without-lid =
    { $stage ->
        [ice] what stays of it while it is to warm the snow, no lid: the mean
        [melt] what stays of it while it is to melt the snow, no lid: the mean
       *[water] what stays of it while it is to warm the water, no lid: the mean
    }
line-water = water
line-water-in-litres = water in litres
line-with-spare =
    { $leg ->
        [0] likely need and spare
       *[other] leg { $leg }: likely need and spare
    }
line-would-need = it would need more than this
line-would-need-with-lid = it would need more than this with its lid on, and still more without
line-a-pot-loses = heat that a pot of { $litres } L, as tall as wide, loses for each °C above the air
line-air-around-pot = air around the pot
line-air-pressure = air pressure
line-air-pressure-read-from = air pressure, read from a barometer
line-boils-at-pressure = water boils at { $pressure } kPa, from steam tables
line-but-burners-least-flame = but the burner's least flame is more
line-distance-from-water = distance from water
line-distance-from-water-metres = distance from water in metres
line-flame-makes-up = flame that makes up for it
line-from-middle-base-nearest = from the middle of the base to its nearest edge
line-fuel-burnt = fuel burnt
line-fuel-end = fuel at the end
line-fuel-in-it = fuel in it
line-fuel-once = fuel for { $meal } once
line-fuel-poured = fuel as poured
line-fuel-to-heat = fuel to heat it
line-fuel-to-light = fuel to light the stove once
line-fuel-to-light-shared = fuel to light it, { $meal } lit { $lit } in { $times } times
line-fuel-when-lit = fuel when it is lit
line-full-day-at = a full day at { $camp }
line-gas-by-mass = of it { $gas }, by mass
line-gauge-pressure = gauge pressure
line-gauge-pressure-end = gauge pressure at the end
line-heat-away-with-steam = heat away with steam
line-heat-cools-1-c = heat that cools it by 1 °C
line-heat-from-air-each = heat from the air for each °C that the canister is colder
line-heat-into-melted-water = heat into its water from 0 °C
line-heat-into-pot = heat into the { $pot } pot
line-heat-into-water = heat into the water
line-heat-of-fuel = heat of the fuel
line-heat-of-fuel-at = heat of the fuel at { $percent } %
line-heat-one-filling-burner = heat in one filling of the burner
line-heat-pots-take-1 = heat that the pots take for 1 °C
line-heat-that-reaches = heat that reaches the pot
line-heat-to-melt = heat to melt the snow
line-heat-to-melt-for = heat to melt the snow for { $part }
line-heat-to-warm-for = heat to warm the water for { $part }
line-heat-to-warm-pots = heat to warm the pots
line-heat-vapour-takes-up = heat that the vapour takes up at { $set } kW
line-heating-value-in-it = heating value of what is in it
line-heating-value-of = heating value of { $fuel }
line-heating-value-of-blend = heating value of { $blend } by mass
line-height = height
line-height-centre-mass-each = height of the centre of mass: each mass x its height
line-height-corrected-gravity = height corrected for gravity
line-height-metres = height in metres
line-height-pots-rim = height of the pot's rim
line-left-behind-kitchens-screen = what is left of it behind the windscreen ({ $screen }, { $wind })
line-less-what-minutes-boil = less what its minutes at the boil burn
line-lost-on-the-way = heat lost to the air on the way
line-mass-of-water-for = mass of water for { $part }
line-mean-of-two = the mean of the two, as it falls on the way
line-mean-power = mean power
line-minutes-in-all = minutes of flame
line-minutes-rolling-boil-make = minutes at a rolling boil that make water safe here
line-minutes-simmer-where-water = minutes to simmer where water boils at { $boiling } °C
line-nothing-lit-fuel-all = nothing is lit: fuel in all
line-on-all-legs = to take on all legs
line-one-filling-heats-most = one filling heats at most
line-person-day = likely need, each person and day
line-pot-loses-at-boil = heat that the { $pot } pot loses at the boil, { $wind }
line-pot-surface = surface of the { $pot } pot, as tall as wide
line-potful-largest-pot = a potful of the largest pot
line-pressure-air = pressure of the air
line-same-degrees = the same in degrees
line-share-fuels-heat-stays = share of the fuel's heat that stays in the pot, loss on the way taken off
line-share-that-reaches = share of the fuel's heat that reaches the pot
line-share-what-set = share of what it is set to
line-sideways-push-rim-tips = sideways push at the rim that tips it
line-stays-at-end = what stays of it at the end
line-stays-at-start = what stays of it at the start
line-stays-in-the-mean = what stays of it on the way: the mean, worked in small steps
line-still-share = share of the fuel's heat that reaches the pot in still air
line-stops-at = so it never boils: it stops at
line-stops-before = so it never gets there: it stops at
line-tilt-tips-slope-edge = tilt that tips it, as a slope: edge by height
line-too-little-this-stove = too little: this stove does not suit; counted as
line-useful-heat = useful heat
line-useful-heat-for = useful heat for { $part }
line-useful-heat-in-all = useful heat in all
line-useful-heat-none = useful heat for { $part }: the water is warm enough
line-vapour-pressure = vapour pressure at that
line-wash-water = wash water a day, { $washing }
line-water-end = water at the end
line-water-for = water for { $part }
line-water-for-each-in-litres = water for { $part }, each person, { $ounces } fl oz in litres
line-water-for-people = water for { $part }, { $people } people
line-whole-steps = steps, up to the next whole one
line-without-lid-open-top = without a lid its open top evaporates
line-worst-case-full-power = worst case at full power, no warmth at all: it cools by
line-would-need-under-lid = it would need more than this, with a lid
line-your-steps = your steps of { $step } m

## What stands behind a line

why-as-stated = as stated
why-as-warm-as-water = as warm as its water
why-basis = { $basis }
why-basis-and-sources = { $basis } { $sources }
why-basis-of-place = { $basis } { $place }
why-filled-cylinders = { $basis }: filled cylinders
why-gas = { $gas } { $value }
why-gases = { $some }, { $more }
why-lower-heating-value = lower heating value { $sources }
why-mean-by-mass = mean by mass of { $blend }: { $gases }
why-place = { $place } { $sources }
why-solved-by-seconds = solved second by second: air and burner warm it, the vapour cools it
why-sources = { $sources }
why-tall-as-wide = { $basis }: a pot as tall as wide
why-until-measured = { $basis } until you measure yours
why-usual-pots = { $basis }: usual mass of such pots
why-verdicts = fine from 75, slow from 40, below it weak: { $basis }
why-your-trial = your burn trial
why-bound-not-forecast = a bound, not a forecast
why-close-to-mean = close to the exact mean
why-common-practice = common practice
why-count-your-own = count your own
why-density-about-15-c = density at about 15 °C
why-draws = 4096 draws, worked unrounded
why-from-table = from the table
why-heat-balance = heat balance
why-litre-taken-kilogram = a litre is taken as a kilogram
why-raoults-law = Raoult's law
why-reference-boil = so that { $percent } % stay in the reference boil
why-rest-warms-air = the rest warms the air
why-rest-warms-air-once = the rest warms the air at once
why-rounded-down = { $number } rounded down
why-rounded-up = { $number } rounded up
why-rounded-up-to-5-g = { $number } rounded up to 5 g
why-rounded-up-to-whole = { $number }, rounded up
why-rule-set = the rule set of the trip
why-standard-atmosphere = US Standard Atmosphere 1976
why-standard-atmosphere-1976 = standard atmosphere 1976
why-steam-tables = IAPWS-IF97
why-taste-no-rule-replaces = taste it: no rule replaces a bite
why-trip = the trip

## Cautions that the numbers raise

caution-adults =
    { $lit ->
        [one] One lit stove needs
       *[other] { $lit } lit stoves need
    } { $needed ->
        [one] 1 adult
       *[other] { $needed } adults
    } beside { $lit ->
        [one] it
       *[other] them
    } and there { $adults ->
        [one] is 1
       *[other] are { $adults }
    }: light fewer at a time. No flame without an adult beside it.
caution-cannot-hold = { $kitchen }: { $stove } cannot hold a simmer in this wind: the pot loses more than the flame brings. Take food that only needs a boil, a smaller pot, or shelter.
caution-cold-canister =
    { $turns ->
        [0] { $kitchen }, { $meal } at { $camp }: { $how }. For the leader: 1. Take a fuller canister with more propane, or another stove. 2. Warm this one first inside a jacket, off the stove, shut, cap on; away from any flame. 3. While it burns, feel the canister often: warm to the hand, shut it off.
       *[other] { $kitchen }, { $meal } at { $camp }: { $how }. For the leader: 1. Take a fuller canister with more propane, or another stove. Or, where the stove's maker provides for liquid feed, light it upright and turn the canister over when the loop is hot. 2. Warm this one first inside a jacket, off the stove, shut, cap on; away from any flame. 3. While it burns, feel the canister often: warm to the hand, shut it off.
    }
caution-fills = { $kitchen }: { $meal } takes { $fills } fillings of the burner, each after it is cold. This stove does not suit this kitchen. Never refill a burner that is lit or hot.
caution-fire-rule-unknown = Fire rule not known: ask the land manager; write down the stage, who told you, when.
caution-fire-rule-stage-only = Fire rule “{ $stage }”: which stoves may be lit is not known, so nothing is cleared. Ask the land manager; write down which stoves, who told you, when.
caution-liquid-feed = { $kitchen } draws liquid: only on a stove whose maker provides for it. Light it upright and turn the canister over when the loop is hot.
caution-never-boils = { $kitchen }: the pot for { $meal } at { $camp } never boils on this stove: it stops at { $at }. Nothing that is known here would: plan this meal cold. No fuel is counted for this kitchen until it does.
caution-never-boils-unless = { $kitchen }: the pot for { $meal } at { $camp } never boils on this stove: it stops at { $at }. What would: { $remedies }. No fuel is counted for this kitchen until it does.
caution-no-flame = Fire rule: no stove may be lit. All meals are cold.
caution-no-flame-by-stage = Fire rule “{ $stage }”: no stove may be lit. All meals are cold.
caution-no-plan = { $kitchen }: { $stove } is no plan for { $season }. Take another stove.
caution-no-simmer = { $kitchen }: { $stove } cannot be turned down. Bring it to the boil, put the lid on, take it off the heat and keep it wrapped and warm.
caution-of-kitchen = { $kitchen }: { $says }
caution-second-stove = All water here hangs on one stove: where it must be melted from snow, take a second stove.
caution-stale-rules =
    { $count ->
        [one] One of the rules was
       *[other] { $count } of the rules were
    } read long ago (up to { $days } { $days ->
        [one] day
       *[other] days
    }): ask the land manager again.
caution-strange-canisters = Not handed out, because they join no stove of this trip: { $tags }.
caution-too-cold = { $kitchen }: in this cold the canisters cannot give what the trip needs, however many are taken. Take a mixture with more propane or another stove.
caution-unknown-canisters = Not handed out, because what is in them is unknown: { $tags }. Read the empty mass off the label or weigh an empty one of the same make, and write it as `tare`.
caution-unusual = { $kitchen }: { $grams } g of fuel a person and day is unusual ({ $season }: { $low } to { $high } g). Check water, wind and how much is cooked.
caution-will-not-boil = { $kitchen }: in the wind at { $camps } this stove may not boil at all behind the windscreen “{ $screen }”. Find shelter, or take a stove with a proper screen.
cold-canister-fails = in this cold the canister will not do it
cold-canister-gives = the cold canister gives { $share } % of its flame
unknown-and = { $some }; { $more }
unknown-canister = { $tag } (an empty one of { $size } usually weighs { $low } to { $high } g)

## What would make a pot boil

remedy-lid = a lid on the pot
remedy-none = nothing that is known here would make it boil, so plan this meal cold
remedy-or = { $some }; or { $more }
remedy-pot = a pot of at most { $most }
remedy-screen = a { $screen } windscreen
remedy-stove = another stove ({ $stove })
remedy-takes = it takes { $remedies }

## Stoves side by side

stove-ask-restrictions = fire restrictions not known: ask the land manager, write which stoves are allowed and who told it
stove-ask-stage = the stage does not say whether stoves may be lit: ask the land manager
stove-ask-valve = no shut-off valve: ask the land manager whether such stoves are allowed
stove-indoors = indoors nothing is lit
stove-may-not-boil = in the wind of a camp it may not boil at all behind its usual windscreen
stove-may-not-boil-own = in the wind of a camp it may not boil at all behind the windscreen that ours has
stove-never-boils = never boils: the pot for { $meal } stops at { $at }, { $remedy }
stove-never-boils-at-all = never boils: the pot for { $meal } stops at { $at }, and no lid, screen or pot that is known here would help
stove-no-flame = the restrictions allow no stove to be lit
stove-too-cold = too cold: a new canister of the usual mixture will not work at every meal
stove-without-valve = the restrictions ask for a shut-off valve; this stove has none

## How a stove stands

stand-large-pot = Large pot on a canister: { $pot } is above { $limit }. It shuts heat in over the canister and tips easily; take a smaller pot or a stove with legs, and see the maker's limit.
stand-legs = Three folding legs with feet { $feet } mm from the middle: { $legs } degrees in place of { $bare }.
stand-legs-worse = Three folding legs with feet { $feet } mm from the middle would make it worse: { $legs } degrees in place of { $bare }. Legs help only where they reach well beyond the canister.
stand-level = Pots slide and soft ground sinks before this tilt, and a knock comes on top: level the stove and keep it clear. A slope of { $slope } degrees across this base is { $shim } mm of shim.
stand-wide-pot = Wide pot: the { $pot } pot ({ $across } mm across, if as tall as wide) overhangs the { $canister } ({ $its } mm): heat comes back onto the canister. Feel its side; if it feels warm, shut the stove off.

## What is usual

season-shoulder = shoulder season
season-some-snow = some nights from snow
season-summer-boil-only = summer, boil only
season-summer-hot-wash = summer, washes hot
season-winter = winter, all from snow
usual-boiled-water = the usual ranges do not count drinking water that is boiled
usual-never-boils = a pot of this menu never boils on this stove
usual-no-day = a lesson is no day on the trail

## Meals and washing up

meal-cold = cold
meal-hot = hot, { $water }
meal-hot-and-simmers = hot, { $water } + { $minutes }
wash-method-usual = strain, bag the bits, scatter on soil

## What the doubt comes from

doubt-of =
    { $input ->
        [amount] amount
        [efficiency] efficiency
        [loss] loss
        [spill] spill
        [water] water
       *[wind] wind
    }

## Whether something applies

applies-always = it always applies
applies-and = { $some }; { $more }
applies-or = { $some }; { $more }
applies-or-not = { $some }, and { $more }
applies-kind = it is a { $kind }
applies-kind-not = only for a { $kind }
applies-flame = a stove may be lit
applies-no-flame = no stove may be lit
applies-only-without-flame = only where no stove may be lit
applies-fuel = the fuel of { $kitchen } is { $fuel }
applies-fuel-not = no kitchen's fuel is { $any }
applies-stove = { $kitchen } cooks on { $stove }
applies-stove-not = no stove is { $any }
applies-colder = nights below { $limit } at { $camp }
applies-colder-not = no night is below { $limit }
applies-higher = { $camp } is above { $limit }
applies-higher-not = no camp is above { $limit }
applies-people = { $people } people
applies-people-not = fewer than { $people } people
applies-young = someone may be young
applies-young-not = nobody is under { $age }
applies-place = { $camp } is in { $place }
applies-place-not = no camp is in { $any }
applies-place-only = every camp is in { $any }
applies-water = water from { $from } at { $camp }
applies-water-not = no water from { $any }
applies-windscreen = { $kitchen } has the windscreen “{ $screen }”
applies-windscreen-not = no kitchen has the windscreen { $any }
applies-arrival = how they arrive
applies-arrival-not = they do not arrive by { $any }
applies-treatment = water treated by { $how }
applies-treatment-not = water is not treated by { $any }
applies-washing = they wash up by { $how }
applies-washing-not = they do not wash up by { $any }
applies-diet = someone has a diet or allergy
applies-diet-not = no diet is stated
any-of = { $some } or { $more }

## A burn trial

trial-few-runs = three runs or more show how far one boil can be off
trial-several-winds = the runs were made in different winds: paste one block, best of the wind you expect
trial-unusual = { $percent } % is what hardly any stove has (10 to 75 %): was the fuel weighed in grams and not in ounces, with the same parts on, and is it the fuel that is named?
trial-without-pot = the pot was not weighed: its share (about 1 %) is missing from the figure to plan with
trial-without-stove = the stove is not stated: write `stove`, `screen`, `pot.capacity` and `air`, and the figure is taken to calm air, whatever the wind of the trial was
trial-without-wind = a run without a stated wind is taken as made in calm air

## What several camps share, ranges, times

assumed-of-every-camp = every camp: { $what }
from-to = { $low } to { $high }
length-none = none
time-in-days = { $days } days
