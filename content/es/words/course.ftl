# Las palabras del curso: ejercicios con sus respuestas, y lo que se dice de un horario.

## Líneas de las cuentas

sum-boils-for = hervores ({ $meal })
sum-base-radius-legs = radio de la base de las patas
sum-bleach = lavandina
sum-bleach-bowl = lavandina para la palangana
sum-bleach-for-a-litre = lavandina para 1 L
sum-bleach-of-label = lavandina al { $label } % para 1 L
sum-bleach-trip = lavandina para la salida
sum-boiling-water-day = agua hirviendo por día
sum-boils-pot = hervores de { $amount } { $unit } en una olla de { $pot } { $unit }
sum-boils-trip = hervores de la salida
sum-burnt-on-first-day = quemado el primer día
sum-cooler-by = baja del punto de ebullición
sum-days-rate = días a ese ritmo
sum-empty = { $name }, vacío
sum-fall = baja
sum-fillings = cargas ({ $meal })
sum-for-all-kitchens = para todas las cocinas
sum-for-the-trip = para la salida
sum-fuel = combustible
sum-fuel-1-from = combustible para 1 { $unit }, desde { $from_words }, a { $height_words }
sum-fuel-1-from-snow = combustible para 1 { $unit } de nieve a { $words }, { $goal }
sum-fuel-in-all = combustible en total
sum-fuel-left = combustible que queda
sum-fuel-left-counts = combustible que queda y cuenta
sum-fuel-left-in = combustible que queda en { $letter }
sum-heat-all = calor en total
sum-heat-gram = calor en un gramo de { $fuel }
sum-heat-into-its-water = calor para su agua
sum-how-many-times-much = cuántas veces el otro
sum-in-celsius = { $what }, en °C
sum-in-litres = en litros
sum-in-litres-of = { $what } en litros
sum-larger-two = el mayor de los dos
sum-likely-fuel = combustible probable
sum-minutes = minutos
sum-minutes-1-from-with = minutos para 1 { $unit } desde { $words } con { $power } kW
sum-new-canister-gives = lo que da uno nuevo: { $new }
sum-new-canisters = cartuchos nuevos
sum-one-filling = una carga
sum-push = empuje
sum-push-1 = empuje para 1 { $mass_unit }
sum-push-on-canister = empuje, sobre el cartucho
sum-push-on-legs = empuje, sobre las patas
sum-share-climb = parte de la subida
sum-simmer = hervor suave
sum-snow = nieve
sum-steps = pasos
sum-steps-line-mean = pasos de la línea, en promedio
sum-steps-over = pasos de { $step_words } en { $far }
sum-still-missing = falta todavía
sum-time-suppers-water = tiempo para el agua de la cena
sum-times-long = veces el tiempo
sum-to-carry-with-spare = para llevar: { $likely } g con { $percent } % de reserva
sum-usable-of-that = de eso se puede usar
sum-water = agua
sum-water-boils-at-height = punto de ebullición a { $height }
sum-water-boils-there = punto de ebullición allí
sum-water-drink = agua para beber
sum-water-for-meal = agua ({ $meal })
sum-water-start = agua al principio
sum-water-trip = agua para la salida
sum-water-wanted = agua que se quiere
sum-weigh-out = para pesar
sum-whole-canisters = cartuchos enteros
sum-whole-days = días enteros
sum-whole-steps = pasos enteros
sum-with-full-pot = con la olla llena
sum-with-one-day-more = con un día más
sum-with-spare-share = con la parte de reserva
sum-with-the-spare = con la reserva
sum-your-step = su paso
sum-canister-counts = lo que cuenta de un cartucho lleno
sum-canisters-needed = cartuchos que lleva
sum-fuel-a-day-now = combustible por día ahora
sum-fuel-now = combustible ahora
sum-fuel-trip-now = combustible para todos los días ahora
sum-one-boil = un hervor: { $scene }
sum-times-as-many = veces las personas
sum-times-as-much = veces lo planeado

## Ejercicios, sus tablas y avisos

practice-and-holds = { $some }, { $more }
practice-cooler-and = { $some }, { $more }
practice-cooler-times = { $by } °C { $times }
practice-from-to = { $least } a { $most }
practice-fuel-holds = { $fuel } { $heat } kJ
practice-table-above = La tabla es la de "{ $topic }: { $level }".
practice-three-canisters = { $a }, { $b } y { $c }
practice-two-canisters = { $a } y { $b }
practice-within-some =
    { $unit-id ->
        [steps]
            { $by ->
                [one] margen de { $by } paso
               *[other] margen de { $by } pasos
            }
       *[other] margen de { $by } { $unit }
    }
practice-1-qt-0-9464 = 1 qt son 0,9464 L. °C = (°F − 32) x 5 / 9. El combustible se pesa en gramos.
practice-base-own = una base propia
practice-base-radius = Radio de la base
practice-begin-with-some-water = Empiece con algo de agua en la olla: con nieve seca se quema. La nieve derretida es agua cruda: trátela como dice la autoridad del lugar.
practice-between-two-rows-boiling = Entre dos filas el punto de ebullición baja en forma pareja, con bastante exactitud: tome la parte de la subida que ya hizo, y esa misma parte de la baja.
practice-bleach-bowl-ppm = Lavandina para una palangana de { $ppm } ppm
practice-bleach-last-bowl = Lavandina (cloro, lejía) para la última palangana
practice-bleach-with-another-cleaner = La lavandina (cloro, lejía) con otro limpiador, un ácido o amoníaco suelta un gas que puede matar. Solo lavandina común, sin perfume, en agua limpia, con guantes y los ojos lejos de las salpicaduras.
practice-boil-sea = hasta que hierve, al nivel del mar
practice-boils-c = hierve a, °C
practice-boils-each-pot-filled = Hervores, cada olla llena hasta { $share } de su capacidad
practice-boils-f = hierve a, °F
practice-boils-pot = Hervores de una olla
practice-brought-boil-sea = llevada a hervor al nivel del mar
practice-burner-kw-heats-water = Un quemador de { $power } kW calienta { $water } de agua desde { $from } a { $camp } de altitud; llega a la olla el { $share } de su calor. ¿Cuántos minutos pasan hasta que hierve?
practice-canister = Cartucho
practice-canister-2 = un cartucho
practice-canisters-go-on-trip = Van a la salida los cartuchos { $said }. ¿Cuántos gramos de combustible tienen entre todos?
practice-canisters-scales-marked-grams = Los cartuchos y las balanzas están marcados en gramos.
practice-count-g-every-canister = Cuente como perdidos { $residue } g de cada cartucho, nuevo o usado: la llama es demasiado débil para quemarlos.
practice-distance = Distancia
practice-distance-land-managers-ask = La distancia la fija la autoridad del lugar: pregúntela. Cuente pasos en terreno llano, con lo que va a cargar.
practice-drink = para beber, { $drink }
practice-drink-2 = para beber
practice-empty-g = vacío, g
practice-exactly = exacto
practice-fuel-left-canister = Combustible que queda en un cartucho
practice-fuel-left-g = combustible que queda, g
practice-fuel-meal = Combustible para una comida
practice-fuel-when-full-g = combustible si está lleno, g
practice-full-g = lleno, g
practice-g-canister = cartucho de { $grams } g
practice-grams-bring-1-boil = Gramos de { $gas } que llevan 1 { $unit } a hervor, con el { $efficiency } % del calor en la olla
practice-grams-carry-spare-added = Gramos para llevar, con la reserva sumada y redondeados hacia arriba a 5 g
practice-grams-make-1-water = Gramos de { $gas } que dan 1 { $unit } de agua de nieve, con el { $efficiency } % del calor en la olla
practice-group-washes-up-times = Un grupo lava los platos { $washes } veces al día durante { $days } días, cada vez con una última palangana de { $litres } L a { $ppm } ppm. La etiqueta dice { $label } %. ¿Cuántos mililitros de lavandina lleva?
practice-heat-gram-stove-passes = Calor en un gramo: { $heats }. De ese calor, la cocinilla pasa a la olla su parte.
practice-height = Altitud
practice-height-boiling-point = Altitud y punto de ebullición
practice-kilowatt-1-kj-second = Un kilovatio es 1 kJ por segundo, 60 kJ por minuto.
practice-kitchen-burns-about-g = Una cocina quema unos { $day } g al día durante { $days } días y lleva { $percent } % de reserva, todo redondeado hacia arriba a 5 g. ¿Cuántos gramos son?
practice-kitchen-burns-about-g-day = Una cocina quema unos { $day } g al día durante { $days } días. Lleva { $percent } % de reserva o combustible para un día más, lo que sea más, todo redondeado hacia arriba a 5 g. ¿Cuántos gramos son?
practice-kitchen-fetches-water-how = Una cocina a { $height } de altitud trae agua a { $water }. ¿Cuántos gramos de { $gas } llevan { $volume } a hervor?
practice-kitchens-burn-about-g = { $kitchens } cocinas queman unos { $likely } g cada una, y cada una lleva { $percent } % de reserva. ¿Cuántos gramos llevan en total?
practice-kj-warm-1-l = { $water_heat } kJ calientan 1 L de agua en 1 °C.
practice-kj-warm-snow-1 = { $ice } kJ calientan en 1 °C la nieve de 1 L de agua, hasta 0 °C; { $fusion } kJ la derriten.
practice-last-bowl-holds-l = En la última palangana hay { $litres } L y debe estar a { $ppm } ppm. La etiqueta dice { $label } %. ¿Cuántos mililitros de lavandina lleva?
practice-last-bowl-holds-l-should = En la última palangana hay { $litres } L y debe estar a { $ppm } ppm. La etiqueta dice { $label } %. ¿Cuántos mililitros de lavandina lleva?
practice-last-g-canister-not = Los últimos { $residue } g de un cartucho no se cuentan: la llama ya es demasiado débil.
practice-lentils-simmer-minutes-sea = Unas lentejas llevan { $simmer } minutos de hervor suave al nivel del mar. ¿Cuántos minutos llevan a { $words }?
practice-likely-fuel-g = Combustible probable, g
practice-millilitres-bleach-litre-water = Mililitros de lavandina por litro de agua = ppm / (10 x el porcentaje de la etiqueta).
practice-minutes-bring-1-boil = Minutos que llevan 1 { $unit } a hervor al nivel del mar, con el { $efficiency } % del calor en la olla
practice-minutes-stove = Minutos en la cocinilla
practice-ml-1-l-water = mL para 1 L de agua
practice-off-g = error posible, g
practice-on-label = En la etiqueta
practice-on-line-you-count = En una línea de { $long } usted cuenta { $first }, { $second } y { $third } pasos. Con la olla llena, su paso es un décimo más corto. El agua de lavado se lleva a { $far } del lago. ¿Cuántos pasos con la olla son?
practice-on-top-canister-base = { $words }. Sobre un cartucho, la base tiene { $base } { $small } de radio y el borde está a { $rim } { $small } de altura; sobre { $legs } patas que llegan a { $reach } { $small } del centro, está a { $other } { $small }. ¿Cuántas veces ese empuje aguanta la cocinilla con patas?
practice-people-drink-person-day = { $people } personas beben { $words } por persona y día durante { $days } días, todo de nieve a { $snow } que se lleva a { $to }. Llega a la olla el { $share } del calor del combustible ({ $gas }). ¿Cuántos gramos pide el agua para beber, redondeados hacia arriba a 5 g?
practice-people-nights-supper-takes = { $people } personas, { $nights } noches. La cena pide { $supper } de agua hirviendo por persona, el desayuno { $breakfast }. El arroyo está a { $from }, el campamento a { $camp } de altitud, y llega a la olla el { $share } del calor del combustible ({ $fuel }). Sume { $percent } % de reserva y redondee hacia arriba a 5 g. ¿Cuántos gramos se llevan?
practice-people-nights-supper-takes-boiling = { $people } personas, { $nights } noches. La cena pide { $supper } de agua hirviendo por persona, el desayuno { $breakfast }. La cocina tiene una sola olla de { $pot }. ¿Cuántos hervores planea para toda la salida?
practice-people-take-boiling-water = Para la cena, { $people } personas piden { $supper } de agua hirviendo cada una. La olla es de { $pot }. ¿Cuántos hervores son?
practice-plan-trip = planear la salida
practice-pot = olla de { $pot } { $unit }
practice-pot-can-boil-early = Una olla puede hervir antes, derramarse o volcarse: los minutos son para planear. Quédese junto a cada cocinilla encendida.
practice-pot-filled-what-holds = Una olla se llena hasta { $share } de su capacidad. Los hervores son enteros: redondee hacia arriba.
practice-pot-more-than-about = Una olla llena a más de { $percent } %, más o menos, se desborda al hervir sobre manos y llama. Levante ollas chicas, con guantes, antes que una que no puede mantener nivelada.
practice-pot-tips-scalds-knock = Una olla que se vuelca quema. Para un golpe alcanza con menos que este empuje lento, y el suelo blando cede antes: ponga la cocinilla nivelada y firme, mangos hacia adentro, nadie sentado por debajo del borde.
practice-push-rim-mass-x = Empuje en el borde = masa x { $gravity } x radio de la base / altura del borde. 1 N es el peso de unos 100 g.
practice-push-rim-tips-stack = Empuje en el borde que vuelca el conjunto, { $push } por cada { $mass } de él
practice-push-rim-weight-x = Empuje en el borde = peso x radio de la base / altura del borde. Es una fuerza, dicha como el peso que apretaría igual.
practice-push-tips-pot = El empuje que vuelca una olla
practice-read-off-table = leer en la tabla
practice-rim = borde a { $rim } { $small }
practice-sea-burner-kw-heats = Al nivel del mar, un quemador de { $power } kW calienta { $volume } de agua desde { $words }. ¿Cuántos minutos pasan hasta que hierve?
practice-shelf-canisters = El estante de cartuchos
practice-shelf-weighed-today = El estante, pesado hoy
practice-simmering-takes-times-long = Por cada 10 °C menos a que hierve el agua, el hervor suave dura { $factor } veces lo que duraba (práctica común): { $factor }^(baja / 10). Por pasos: { $factors }.
practice-snow = Nieve
practice-snow-how-many-grams = La nieve está a { $words }. ¿Cuántos gramos de { $gas } dan { $volume } de agua { $goal }?
practice-spare = { $percent } % de reserva
practice-spare-fuel = Combustible de reserva
practice-spare-wind-spills-one = La reserva es para viento, derrames y una noche más, y vuelve llena a casa. Quien guía dice cuánta.
practice-stamped-empty-g = vacío grabado, g
practice-stamped-g-empty-weighs = Un { $name } lleva grabado { $tare } g vacío. Pesa { $weighed } g. ¿Cuántos gramos de combustible le quedan?
practice-stamped-g-empty-weighs-g = Un { $name } lleva grabado { $tare } g vacío. Pesa { $weighed } g a la mañana y { $after } g a la mañana siguiente. De lo que tiene, { $residue } g no se pueden quemar. ¿Para cuántos días enteros más de cocinar igual alcanza?
practice-stands-on-with-radius = { $words }; el conjunto se apoya en { $feet } de { $base } { $small } de radio y el borde está a { $rim } { $small } de altura. ¿Qué empuje de costado en el borde lo vuelca, en { $unit }?
practice-step = paso de { $step }
practice-steps-distance-length-your = Pasos = distancia / largo de su paso, hasta el próximo entero.
practice-steps-length-your-step = Pasos según el largo de su paso
practice-steps-water = Pasos hasta el agua
practice-stove-on-four-legs = Una cocinilla de cuatro patas se vuelca sobre la línea entre dos pies: el radio de su base es 0,71 de lo que llega una pata; con tres patas, 0,5.
practice-stove-pot-water-together = Cocinilla, olla y agua pesan juntas { $mass } { $unit }
practice-strength-warmth-time-bowl = La concentración, el calor y el tiempo en la palangana los fija la autoridad de salud: use sus números y los de la etiqueta. Las tiras de prueba dicen qué hay en la palangana.
practice-supper-takes-boiling-water = La cena pide { $water } de agua hirviendo. El arroyo está a { $from }, el campamento a { $camp } de altitud, y llega a la olla el { $share } del calor. ¿Cuántos gramos de { $fuel } hacen falta?
practice-supper-takes-boiling-water-there = La cena pide { $amount } de agua hirviendo, y hay una sola olla de { $pot }. ¿Cuántos hervores son?
practice-supper-takes-boils-one = La cena pide { $boils } hervores, uno tras otro, de { $water } cada uno, desde { $from } a { $camp } de altitud. El quemador tiene { $power } kW, llega a la olla el { $share } de su calor, y preparar cada hervor lleva { $set_up } min. ¿Cuántos minutos pasan desde que empieza la primera preparación hasta el último hervor?
practice-tag = Marca
practice-these-sums-without-pots = Son cuentas sin el calor de la propia olla, sin viento ni derrames, y la parte que pasa la cocinilla es un supuesto hasta que mida la suya. Lleve lo que dice el cálculo del combustible de la salida.
practice-trip-needs-g-fuel = La salida necesita { $need } g de combustible. Primero se gastan los cartuchos { $said }; el resto sale de nuevos, todos iguales: { $new }. ¿Cuántos nuevos hacen falta?
practice-usual-masses-canisters-one = Masas usuales de los cartuchos; en uno sin peso grabado, el error puede ser el de la última columna
practice-wash-water-goes-from = El agua de lavado se lleva a { $far } del lago, y su paso es de { $step }. ¿Cuántos pasos son?
practice-water = Agua
practice-water-from-snow = Agua de nieve
practice-water-start = Agua al principio
practice-weigh-canisters-off-stove = Pese los cartuchos fuera de la cocinilla, con la válvula cerrada, lejos de toda llama. Nunca perfore ni rellene uno; uno vacío se conoce por su peso, no por el silencio.
practice-weighs-g = pesa, g
practice-weighs-g-how-many = Un { $name } pesa { $weighed } g. ¿Cuántos gramos de combustible le quedan?
practice-what-carried-rounded-up = Lo que se lleva se redondea hacia arriba a los próximos 5 g.
practice-where-water-boils-usual = A cuánto hierve el agua con tiempo usual (atmósfera estándar, tablas de vapor)
practice-within = margen de { $percent } %
practice-within-before-rounded-up = margen de { $percent } % antes de redondear hacia arriba
practice-work-out = calcular
practice-you-move-camp-from = Usted muda el campamento de { $low } a { $high } de altitud. ¿A cuántos { $unit } menos hierve el agua?
practice-you-want-water-drink = Usted quiere { $words } de agua para beber a { $to }, hecha de nieve a { $snow }. Llega a la olla el { $share } del calor. ¿Cuántos gramos de { $gas } hacen falta?
practice-your-camp-lies-how = Su campamento está a { $words } de altitud. ¿A cuántos { $unit } hierve allí el agua?
practice-grams-one-boil = Gramos de { $gas } para un hervor de { $water } en una olla de { $pot }, al nivel del mar, sobre un quemador puesto en su cartucho, al reparo natural; el aire tan tibio como el agua
practice-if-and = { $some } { $more }
practice-if-boils = El plan cuenta { $boils } hervores: { $scene }. { $changes } ¿Cuántos gramos de { $gas } llevan ahora?
practice-if-canisters = { $scene } Los cartuchos van llenos, todos iguales: { $canister }. ¿Cuántos hacen falta ahora para { $days } días?
practice-if-colder = La noche es { $by } más fría, y el agua está a { $to }.
practice-if-day = { $scene } ¿Cuántos gramos por día son ahora?
practice-if-day-scene = Una cocina de { $people } personas cuenta con { $fuel } g de { $gas } por día: { $scene }. { $changes }
practice-if-guests = Vienen { $more } personas más.
practice-if-lasts = { $scene } Un { $canister } lleno iba a alcanzar para { $days } días. ¿Para cuántos días enteros alcanza ahora?
practice-if-no-lid = La tapa quedó en casa.
practice-if-wind = Se levanta viento: ahora { $wind }, hasta { $by }.
practice-more-people-more-fuel = El combustible crece como el número de personas, con bastante exactitud.
practice-no-screen-all-round = Nunca compense el viento con un paravientos cerrado alrededor de un quemador puesto en su cartucho: el cartucho se calienta de más y puede reventar. Busque reparo, o espere.
practice-scene = { $stands }, agua a { $water }
practice-what-if = ¿Y si cambia algo?
practice-what-if-is-no-plan = La tabla vale para una cocinilla y una olla, con el medio de lo probable. Lleve lo que dice la hoja de cuentas de combustible de la salida.
practice-wind-and-lid = Viento y tapa
practice-wind-classes = Viento donde está la cocinilla: calma es hasta { $calm }, brisa hasta { $breezy }, ventoso hasta { $windy }. Con más que eso no se enciende nada al aire libre.
practice-wind-lid = { $wind }, con tapa
practice-wind-no-lid = { $wind }, sin tapa
practice-within-table = margen de { $percent } %, porque la tabla está redondeada

## Unidades que son palabras

unit-boils = hervores
unit-canisters = cartuchos
unit-days = días
unit-steps = pasos
unit-times = veces

## Por qué una parte o un tema queda fuera de un horario

left-out-no-room = no cabe en los minutos
left-out-indoors = pide una llama, y bajo techo no se enciende nada
left-out-no-adult = pide una llama, y ningún adulto quedaría libre para los que esperan
left-out-ban = la norma de fuego vigente no permite ninguna cocinilla para esto
left-out-outdoors-only = pide terreno abierto
left-out-opens-fuel = se maneja combustible, y bajo techo no lo hay
left-out-light = a esa hora no es seguro que haya la luz que pide
left-out-not-here = ninguna de sus partes toca a estas normas, cocinillas y lugar
left-out-waits = habría quien espera demasiado su turno

## Lo que se hace por un objetivo

covered-shown = mostrado
covered-practised = practicado
covered-practised-lit = practicado con llama
covered-assessed = evaluado
kit-second-burner = segundo quemador igual: { $stove }
kit-bench-stove = cocinilla sin combustible, para un lugar que no tiene
