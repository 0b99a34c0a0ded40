# The words of a lesson: its plan, the papers around it, the skills check, study cards, practice.

## The head of the plan

lesson-length = { $minutes } from { $hour }
lesson-sessions =
    { $sessions ->
        [one] { $sessions } session
       *[other] { $sessions } sessions
    }, { $minutes } in all
lesson-nothing-lit = nothing is lit
lesson-go = wind under { $wind } at the stove, fire rule known, water and burn kit out, { $adults }
lesson-go-adults = an adult at each flame
lesson-go-one-free = an adult at each flame, and one without a stove while anyone is away from it
lesson-go-cold = weather, place and people as planned
lesson-height = At { $height } water boils at { $boils }: food takes longer to cook.
lesson-in-hand = { $minutes } in hand
lesson-most-lit =
    { $lit ->
        [1] at most one lit at once, the rest cold
        [2] at most two lit at once, the rest cold
        [3] at most three lit at once, the rest cold
        [4] at most four lit at once, the rest cold
       *[other] at most { $lit } lit at once, the rest cold
    }
lesson-adults =
    { $adults ->
        [one] { $adults } adult beside each lit stove; { $most }
       *[other] { $adults } adults beside each lit stove; { $most }
    }

## The shorter plan

lesson-indoors = { $minutes }, indoors, nothing lit
lesson-nothing-new = nothing new: the worksheet, questions from the cards
lesson-nothing-new-cards = nothing new: questions from the cards
lesson-fallback-runs = it runs { $from } to { $to }
lesson-fallback-latest = it runs { $from } to { $to }. Stopped later: all off, cold, then start it by { $latest } to be done at { $end }

## The card of a part

lesson-fallback = Fallback
lesson-beside-flame = beside the flame, in turns
lesson-while-resting = while burners rest
lesson-while-others = while others have their turn
lesson-from-card = from its card
lesson-a-round = { $minutes } a round, { $rounds } rounds
lesson-flame-on = flame ON
lesson-kit-each = { $what }, { $count } a learner
lesson-kit-both = { $stations } × { $what } and { $count } a learner

## What a session lights, and who waits

lesson-flames =
    { $stations } lit, { $lit ->
        [1] one at a time
        [2] at most two side by side
        [3] at most three side by side
        [4] at most four side by side
       *[other] at most { $lit } side by side
    }; { $turns }; { $free }
lesson-nobody-away = nobody is away from the flame then
lesson-adults-free =
    { $free ->
        [one] { $free } adult has no stove
       *[other] { $free } adults have no stove
    }
lesson-flames-each = each learner lights once
lesson-flames-watched = an adult lights and learners watch
lesson-cold-indoors = Nothing is lit: this is indoors, and no fuel comes in
lesson-cold-adult = Nothing is lit: no adult would be free for those who wait. One adult more lights a stove
lesson-cold-waits = Nothing is lit: someone would wait more than { $most }. Another adult and stove would do
lesson-cold-because = Nothing is lit: { $why }
lesson-cold-no-need = Nothing is lit: its subjects need no flame
lesson-cold-no-room = Nothing is lit: no room in the minutes. { $minutes } more would hold a flame with all that it needs
lesson-waits-none = Everyone has something to do in every row.
lesson-waits = One learner waits { $minutes } at the most, all rows together; { $limit } is the limit.
lesson-others-more = and { $count } more

## Rows of the clock: what, and how

clock-recall = What do we still know?
clock-drill = "All off" drill
clock-together-unlit = do together, unlit
clock-all-off = "All off!" called, stoves lit
clock-all-off-call = "All off!"
clock-cooling = Cold before it is packed
clock-break = Break
clock-nothing-lit = nothing lit
clock-hand-out = Papers, groups, go or no go
clock-all-together = all together
clock-side-by-side = side by side
clock-worksheet = Fuel worksheet
clock-each-alone = each alone
clock-form = Check: written form
session-unnamed = Session { $number }
clock-burners-rest = Burners rest
clock-check = Check
clock-check-of = Check: { $title }
clock-check-unlit = Check: what is watched, unlit
clock-clear-up = Clear up and count
clock-teaches = { $kind }; { $who } teaches
clock-rounds = { $kind }; { $rounds } rounds

## Rows of the clock: where and who

clock-at-one =
    at { $stations }, up to { $most ->
        [one] { $most } learner
       *[other] { $most } learners
    }
clock-at-each =
    at { $stations }, up to { $most ->
        [one] { $most } learner
       *[other] { $most } learners
    } each
clock-at-some =
    { $lit } of { $stations }, up to { $most ->
        [one] { $most } learner
       *[other] { $most } learners
    } each
clock-begins-at = { $who } at { $place }
clock-then-on = { $places }; then on to the next place
clock-in-turns = in turns
clock-in-turns-at = in turns at { $station }
clock-all-at = all at { $station }
clock-in-parts =
    { $parts ->
        [2] in two parts, an adult with each
        [3] in three parts, an adult with each
        [4] in four parts, an adult with each
       *[other] in { $parts } parts, an adult with each
    }
clock-second-burner = { $station }, second burner
clock-bench = bench { $number }
clock-behind-line = behind the line
clock-free = { $free } free
clock-adults-there =
    { $adults ->
        [1] the adult at it
        [2] both adults at it
       *[other] all adults at it
    }
clock-burns = burns { $burns } of { $minutes }
clock-go = wind under { $wind }
clock-adult-here = { $does } (adult)
clock-keep = keep
# a space that does not break: the column is narrow
clock-drop = drop { $place }
clock-drop-rounds = drop { $place }, last rounds first

## What a learner does who is not at the flame

clock-does-listen = behind the line, listening
clock-does-part = their part
clock-does-rehearse = next turn, unlit
clock-does-worksheet = worksheet
clock-does-cards = study cards, two and two
clock-does-cards-alone = study cards, alone
clock-does-form = written form

## What is covered

cover-not-yet = not yet
cover-written = in writing
cover-station = station
cover-questions =
    { $count ->
        [one] { $count } question
       *[other] { $count } questions
    }
cover-critical = critical
cover-known = { $say } (they bring it)
cover-marked = { $say } (**critical**)
cover-known-marked = { $say } (they bring it) (**critical**)

## What is brought

kit-water =
    { $water } of water at { $places ->
        [one] { $places } live place
       *[other] { $places } live places
    }, in open buckets
kit-burn-kits =
    { $count ->
        [one] { $count } burn kit
       *[other] { $count } burn kits
    }, one at each live place
kit-cold-down =
    { $count ->
        [one] { $count } marked cold-down zone for hot things
       *[other] { $count } marked cold-down zones for hot things
    }
kit-hair-ties =
    { $count ->
        [one] { $count } hair tie
       *[other] { $count } hair ties
    }
kit-lighters =
    { $count ->
        [one] { $count } lighter
       *[other] { $count } lighters
    }, one in the pocket of the adult at each live place
kit-burns = { $minutes }, lit { $times } ×
kit-left = { $tag } ({ $left } left)
kit-menu = mug, and what goes into it ({ $meal })
kit-of-menu = { $menu } of it boil the menu’s water

## The menu on the clock

clock-menu-boiled = { $title }; its water is for { $meals }
clock-menu-drunk = { $title }; { $meals } handed round
clock-menu-water = water for { $meals }
menu-made = { $station }: { $water } for { $people } ({ $meal }), one boil in each of these turns of “{ $segment }”: { $times }.
menu-handed-round = Drinking water and clean pots for it; an adult lifts and pours, the flame off and the bowls on the ground. Handed round from { $from }, all off.
menu-short =
    { $station }: no { $meal } on this clock, as it takes { $boils ->
        [one] one boil
       *[other] { $boils } boils
    } of { $each } and { $turns ->
        [one] there is one flame
       *[other] there are { $turns } flames
    } of { $burns } with a pot on. Its fuel is handed out: boil it after the lesson, or write “menu: cold” in its file.
menu-never = { $stations }: no { $meals }: its water never boils here.
menu-no-pot = { $stations }: no { $meals } on this clock, as no flame there has a pot on it. Its fuel is handed out: boil it after the lesson, or write “menu: cold” in its file.
menu-nothing-lit = No { $meals }: nothing is lit, and no fuel for it is on any list.

## Papers around a lesson

papers-hours = { $from } to { $to }
papers-adult-beside =
    { $lit ->
        [1] An adult beside each flame; at most one lit side by side
        [2] An adult beside each flame; at most two lit side by side
        [3] An adult beside each flame; at most three lit side by side
        [4] An adult beside each flame; at most four lit side by side
       *[other] An adult beside each flame; at most { $lit } lit side by side
    }
papers-adult-more = One adult more without a stove while anyone waits
papers-nobody-waits = Whoever is there is at the flame with the adult beside it; nobody waits elsewhere
papers-unlit-first = Every step said and done with nothing lit first; the drill "all off" before the first flame
papers-lone-adult = One adult only: before the first flame two learners can say whom to call, and where they are. Is the adult hurt: all off, step back, call
papers-cold-again = A burner of liquid fuel or alcohol is lit again only when cold and looked at
papers-water-at-hand = Water in open buckets and a burn kit at each live place; one place for hot things
papers-go-or-not = Go or no go before the first flame: wind, fire rule, water, adults
papers-nothing-lit = Nothing is lit, and what fuel there is stays shut
papers-bad-weather = Bad weather: a shorter plan indoors without flame or fuel
papers-diet = The food named above is not brought; plan and medicine are with a named adult
papers-bucket = bucket of water, large
papers-burn-kit = burn kit
papers-hot-place = marked place for hot things
papers-hair-tie = hair tie
papers-lighter = lighter
papers-food = food and drink of the menu, for one
papers-water = water for the buckets
papers-screen = windscreen of the stove
papers-board = pencil and something to write on
papers-calculator = calculator, one for two

## Slides

slide-stoves-lit = Stoves are lit today. An adult stands beside each.
slide-nothing-lit = Nothing is lit today.
slide-recall = Say it from memory, then look.
slide-all-off = All off!
slide-all-off-do = Put it out. Step back. Hands down.
slide-go-on = We go on at { $hour }.
slide-worksheet = Your worksheet
slide-worksheet-until = Pencil only, until { $hour }.
slide-form = Your form
slide-form-alone = Alone, without notes.
slide-show = Show it
slide-show-tick = One shows, one ticks.
slide-look = Look
slide-your-turn = Your turn: { $title }

## The skills check

check-form = { $title }, form { $letter }
check-form-about = questions on a leaf; every form has the same blueprint
check-form-print = both sides of one leaf
check-copies-first = every other learner
check-copies-neighbours = their neighbours
check-copies-again = one for each who tries again
check-grid = { $title }, what is watched
check-grid-about = what is watched at the stove, a grid for six candidates
check-grid-copies = one
check-grid-one-side = one side for six candidates
check-grid-both-sides = both sides of a leaf for six candidates
check-holds = 12 months, or until the next trip in another season
check-each =
    { $count ->
        [0] none
        [1] one
        [2] two
        [3] three
        [4] four
       *[other] { $count }
    }
check-blueprint =
    { $questions ->
        [one] { $questions } question
       *[other] { $questions } questions
    }: { $each } for each thing that you will be checked on{ $sums ->
        [0] {""}
        [one] , and { $sums } sum
       *[other] , and { $sums } sums
    }

## Study cards

cards-hurt = What can hurt
cards-first = What to do first
cards-wrong-here = What is wrong here
cards-know = What to know
cards-looked-for = What an assessor looks for
card-hurt = { $subject }: what can hurt you, and what do you do?
card-happened = { $subject }: somebody is hurt or in danger by it. What do you do first?
card-look-for = Somebody is to { $say }. What do you look for?

## Practice

practice-all-topics = all topics
practice-given = given

## What may be known beforehand

known-words = says it
known-choice = chooses what is right
known-order = puts the steps in order
known-places = spots the fault
known-not-asked = not asked there
known-said-is-enough = said is enough
known-acts =
    { $acts ->
        [one] one act to see
       *[other] { $acts } acts to see
    }
