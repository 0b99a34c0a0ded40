# The words of the kitchen's papers: card, fuel worksheet, handout, briefing, packing list, store room.

## Said on many sheets

people-count =
    { $people ->
        [one] { $people } person
       *[other] { $people } people
    }
learners-count =
    { $learners ->
        [one] { $learners } learner
       *[other] { $learners } learners
    }
instructors-count =
    { $instructors ->
        [one] { $instructors } instructor
       *[other] { $instructors } instructors
    }
nights-count =
    { $nights ->
        [one] { $nights } night
       *[other] { $nights } nights
    }
# a small number at the start of a phrase
number-in-words =
    { $number ->
        [0] none
        [1] one
        [2] two
        [3] three
        [4] four
       *[other] { $number }
    }
date-not-set = date not set
no-flame-without-adult = No flame without an adult beside you.
every-camp = every camp
this-place = this place
not-given = not given
not-known = not known
not-stated = not stated
push-as-weight = { $newtons } N (the weight of { $grams } g)
pot-name = { $material } { $litres } L
stoves-may-be-lit = stoves may be lit
stoves-with-valve-may-be-lit = only stoves with a shut-off valve may be lit
stoves-may-not-be-lit = no stove may be lit, nothing is lit at all
fire-none-at = no stove may be lit at { $camps } ({ $rule }): meals there are cold, and no fuel is counted for them
fire-not-known-from = from { $day } on not known, so nothing is cleared: ask the land manager
fire-stage-only = { $stage }; which stoves may be lit is not known, so nothing is cleared
stove-burning = { $stove }, burning { $fuel }
meal-at = { $meal } at { $camp }
# what a module says, where only some camps are meant
item-at-some-camps = { $item } ({ $count } of the camps)

## The kitchen card

card-set-up = Set up
card-light = Light
card-cook = Cook and serve
card-clean-up = Clean up
card-night = Night
card-leave = Leave
card-adults =
    { $adults ->
        [one] { $adults } adult beside each lit stove
       *[other] { $adults } adults beside each lit stove
    }
card-other-side = { $item }: by each camp's own rule
card-head-night = Night
card-head-after-night = After night
card-head-left = g left (band)
card-head-left-of = { $kitchen }: g left (band)
card-head-left-and-scale = g left (band); scale
card-head-we-have = We have
card-left = { $left } ({ $low } to { $high })
card-left-on-scale = { $left } ({ $low } to { $high }); scale { $scale }
change-will-not-boil = a pot will not boil
change-no-more = as planned
change-may-not-boil = { $fuel }, and it may not boil
no-scale-canister = No scale: float the canister upright in water at home, full and empty, and mark both water lines; the line now lies between them.
no-scale-bottle = No scale: a clean stick in the upright bottle; mark it at home full, half and a quarter.
no-scale-tablets = No scale: count the tablets.

## The fuel worksheet

fuel-no-meal = no meal
fuel-the-camp = the camp
fuel-covers = { $fuel } covers { $trips }
fuel-trips-covered = { $percent } of 100 such trips
fuel-efficiency-measured = The efficiency is your own, measured in a burn trial.
fuel-efficiency-assumed = The efficiency is assumed until you measure yours: do a burn trial at home (shake-down sheet).
given-height = height
given-boils = water boils at
given-snow = snow
given-water = water as it comes
given-wind = wind
given-pots = pots
given-still-share = share of the fuel's heat that reaches the pot in still air
given-left-in-wind = left of it in this wind
given-heat = heat in the fuel
given-heat-a-gram = { $kilojoules } kJ a gram
given-to-light = fuel to light
given-each-lighting = { $grams } g each lighting
working-air = Air and boiling point at { $camp }
working-lost = Heat lost to the air: { $meal }
working-minutes = Minutes for { $meal }
blank-line = [line { $number }]
blank-loss = [loss { $number }]
blank-to-a-full = to a full { $step }
blank-add-camps = add the camps
blank-add-totals = add the totals above
form-scout = look it up and multiply
form-with-losses = with losses
usual-none-fits = no range fits
usual-not-held = Not held against a usual range: { $why }.
usual-no-plan = no range: the trade does not plan this stove so
usual-choose-another = Unusual: nobody plans this stove for { $season }. Choose another.
usual-range = { $low } to { $high } g ({ $season })
usual-inside = Inside the usual range for this stove and season (common practice, no source).
usual-check = Unusual: check water and wind before you trust it.

## What a kitchen is handed

handed-at = at { $camp }
handed-at-start = at the start
handed-needs = needs { $needed }
handed-needs-practice = needs { $needed } ({ $practice } to practise with)
handed-issued = needs { $needed }, issued { $issued }
handed-issued-practice = needs { $needed } ({ $practice } to practise with), issued { $issued }
handed-in = { $sums } in { $count }: { $containers }
# several meals that stop alike stand in one list
handed-stops = { $meals } stops at { $at }; { $remedy }
handed-stays-cold = no fuel: it is not lit in this lesson
handed-will-not-boil = will not boil: { $each }. No fuel is counted or handed out until all of it boils
containers-count =
    { $count ->
        [one] { $count } container
       *[other] { $count } containers
    }
containers-new =
    { $count ->
        [one] new { $name } ({ $grams })
       *[other] { $count } × new { $name } ({ $grams } each)
    }
container-new = { $name }, new
container-new-of = { $name }, new { $number } of { $of }
container-fill = fill in { $fill }, no more ({ $net })
container-fuel = { $net } of fuel
container-packed = { $name }: fill in { $fill }, no more
starts-with = { $needed } (assumed)
starts-with-issued = { $issued } in { $count } (needs { $needed }, assumed)
starts-from = from { $camp } { $starts }
starts-with-nothing = no fuel, for it { $why }

## Where wash water goes

wash-in-steps = { $distance } = { $steps } steps
wash-no-distance = the rule here asks for no distance
wash-no-distance-from = no distance from { $from }
wash-from = { $distance } from { $from }
wash-soap-far = { $soap }; { $distance } away
wash-and-soap = { $method }; { $distance }; soap: { $soap }
wash-without-soap = { $method }; { $distance }

## The handout's numbers

numbers-boils = Water boils at { $of }
numbers-boils-up = { $boils } ({ $height } up)
numbers-fuel =
    { $count ->
        [one] Fuel for { $of }
       *[other] Fuel for { $of } each
    }
numbers-fuel-likely = { $fuel }; assumed, likely { $likely } in all; { $stove }
numbers-fire-rule = Fire rule for { $of }
numbers-wash = Wash water at { $of }
numbers-wash-in-steps = { $wash } (your steps of { $step })
numbers-push = Push at the rim that tips { $of }
numbers-push-and-tilt = { $push }; tilt { $tilt }
numbers-drinking-water = Drinking water
treated-tap = from a safe tap
treated-boiled = boiled
treated-boiled-for = boiled, at a rolling boil for { $time }
treated-filter = through a filter; a filter that froze wet is ruined
treated-chemical = with a chemical, for the time on its label
treated-uv = with ultraviolet light, clear water only

## The briefing

briefing-leader = Leader
briefing-food-differs = the rule differs from camp to camp; the leader reads it out at each
briefing-see-handout = { $first }; what to do stands on the handout.

## The packing list

pack-pot = Pot with lid, { $pot }
pack-stove = Stove, { $stove }
pack-second-stove = Second stove, for all kitchens
pack-spares = Stove spares: { $spares }
pack-fuel = Fuel: { $fuel }
pack-handed-out-at = Handed out at { $camp }, not in this bag

## Which stove

stove-here-yes = yes
stove-here-no = no
stove-here-ask = ask
stove-no-carbon = none
fuel-heat-range = { $likely }, { $low } to { $high } as sources and mixtures differ

## Store room and desk

issued-on-scale = { $sums }, { $gross } on the scale
efficiency-in-calm-air = { $percent }% in calm air
shake-down-water = as much as you cook at once
night-at-home = home
checked-by-nobody = nobody
rule-from-trip = trip
rule-from-default = default
rule-read-on = read { $date }
source-undated = No date
