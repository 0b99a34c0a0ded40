# Las palabras de lo que se calcula: una línea por mensaje, bajo el id con que la pide el programa.
# Sintaxis de Project Fluent. Lo que entra en una frase lleva nombre: `$camp` es el nombre de un campamento.

## Lo que escribió una persona, una cantidad

as-written = { $words }
to-verify = { $what } (verificar)

## Líneas de una cuenta

part = { $meal }
part-to = { $meal } hasta { $at } °C
batches-none = ninguna
batches-in-pot =
    { $count ->
        [one] { $litres } L en olla de { $pot }
       *[other] { $count } x { $litres } L en olla de { $pot }
    }
batches-and = { $some }, { $more }
line-at-confidence =
    { $leg ->
        [0] necesidad que cubre { $percent } de 100 salidas así, redondeada hacia arriba
       *[other] tramo { $leg }: necesidad que cubre { $percent } de 100 salidas así, redondeada hacia arriba
    }
line-batches = tandas: { $batches }
line-carry =
    { $leg ->
        [0] tomar lo mayor ({ $larger } g), hasta el próximo escalón completo
       *[other] tramo { $leg }: tomar lo mayor ({ $larger } g), hasta el próximo escalón completo
    }
line-from-snow = agua que se quiere de nieve
line-from-snow-in-litres = agua que se quiere de nieve, en litros
line-fuel-at = combustible en { $camp }
line-fuel-at-this-place = combustible en este lugar
line-fuel-of-leg = tramo { $leg }: combustible
line-fuel-to-hold = combustible para mantener el hervor, cada tanda en su olla
line-fuel-to-simmer = combustible para el hervor suave, cada tanda en su olla
line-heat-of-stage =
    { $stage-id ->
        [ice] calor para calentar la nieve en la olla de { $pot }
        [melt] calor para derretir la nieve en la olla de { $pot }
       *[water] calor para calentar el agua en la olla de { $pot }
    }
line-in-celsius = { $what } en °C
line-left-behind-screen = lo que queda de esa parte (paravientos: { $screen }; viento: { $wind })
line-likely =
    { $leg ->
        [0] necesidad probable, { $percent } % derramado
       *[other] tramo { $leg }: necesidad probable, { $percent } % derramado
    }
line-mass = masa: quemador, olla, agua
line-mass-on-canister = masa: envase, último combustible, quemador, olla, agua
line-minutes-of-flame = minutos de llama a { $power } kW
line-minutes-of-flame-cold = minutos de llama a { $power } kW, lo que deja el cartucho frío
line-minutes-of-stage =
    { $stage-id ->
        [ice] minutos para calentar la nieve
        [melt] minutos para derretir la nieve
       *[water] minutos para calentar el agua
    }
line-minutes-with-set-up = minutos con la preparación
line-minutes-with-waits = minutos con la preparación y las esperas hasta que el quemador está frío
line-pot-loses = calor que la olla de { $pot }, tan alta como ancha, pierde por cada °C sobre el aire (viento: { $wind })
line-snow = nieve
line-spare-days =
    { $leg ->
        [0] días de reserva
       *[other] tramo { $leg }: días de reserva
    }
line-stays-without-lid =
    { $stage-id ->
        [ice] lo que queda de ese calor al calentar la nieve, sin tapa: la media
        [melt] lo que queda de ese calor al derretir la nieve, sin tapa: la media
       *[water] lo que queda de ese calor al calentar el agua, sin tapa: la media
    }
line-water = agua
line-water-in-litres = agua en litros
line-with-spare =
    { $leg ->
        [0] necesidad probable y reserva
       *[other] tramo { $leg }: necesidad probable y reserva
    }
line-would-need = haría falta más que esto
line-would-need-with-lid = haría falta más que esto con la tapa puesta, y todavía más sin ella
line-a-pot-loses = calor que una olla de { $litres } L, tan alta como ancha, pierde por cada °C sobre el aire
line-air-around-pot = aire alrededor de la olla
line-air-pressure = presión del aire
line-air-pressure-read-from = presión del aire, leída en un barómetro
line-boils-at-pressure = punto de ebullición del agua a { $pressure } kPa, según tablas de vapor
line-but-burners-least-flame = pero la llama mínima del quemador es más
line-distance-from-water = distancia al agua
line-distance-from-water-metres = distancia al agua en metros
line-flame-makes-up = llama que lo compensa
line-from-middle-base-nearest = del centro de la base a su borde más cercano
line-fuel-burnt = combustible quemado
line-fuel-end = combustible al final
line-fuel-in-it = combustible adentro
line-fuel-once = combustible ({ $meal }), una vez
line-fuel-poured = combustible, como se vierte
line-fuel-to-heat = combustible para calentar
line-fuel-to-light = combustible para encender una vez la cocinilla
line-fuel-to-light-shared = combustible para encender ({ $meal }): { $lit } de { $times } veces
line-fuel-when-lit = combustible al encender
line-full-day-at = un día completo en { $camp }
line-gas-by-mass = de eso, { $gas }, en masa
line-gauge-pressure = presión manométrica
line-gauge-pressure-end = presión manométrica al final
line-heat-away-with-steam = calor que se va con el vapor
line-heat-cools-1-c = calor que lo enfría 1 °C
line-heat-from-air-each = calor que da el aire por cada °C que el cartucho está más frío
line-heat-into-melted-water = calor para su agua desde 0 °C
line-heat-into-pot = calor para la olla de { $pot }
line-heat-into-water = calor para el agua
line-heat-of-fuel = calor del combustible
line-heat-of-fuel-at = calor del combustible a { $percent } %
line-heat-one-filling-burner = calor de una carga del quemador
line-heat-pots-take-1 = calor que toman las ollas por 1 °C
line-heat-that-reaches = calor que llega a la olla
line-heat-to-melt = calor para derretir la nieve
line-heat-to-melt-for = calor para derretir la nieve ({ $part })
line-heat-to-warm-for = calor para calentar el agua ({ $part })
line-heat-to-warm-pots = calor para calentar las ollas
line-heat-vapour-takes-up = calor que toma el vapor a { $set } kW
line-heating-value-in-it = poder calorífico de lo que hay adentro
line-heating-value-of = poder calorífico de { $fuel }
line-heating-value-of-blend = poder calorífico de { $blend } en masa
line-height = altitud
line-height-centre-mass-each = altura del centro de masa: cada masa x su altura
line-height-corrected-gravity = altitud corregida por la gravedad
line-height-metres = altitud en metros
line-height-pots-rim = altura del borde de la olla
line-left-behind-kitchens-screen = lo que queda de esa parte detrás del paravientos ({ $screen }; viento: { $wind })
line-less-what-minutes-boil = menos lo que queman sus minutos de hervor
line-lost-on-the-way = calor perdido en el aire en el camino
line-mass-of-water-for = masa del agua ({ $part })
line-mean-of-two = la media de las dos, según baja en el camino
line-mean-power = potencia media
line-minutes-in-all = minutos de llama
line-minutes-rolling-boil-make = minutos de hervor fuerte que aquí hacen segura el agua
line-minutes-simmer-where-water = minutos de hervor suave donde el agua hierve a { $boiling } °C
line-nothing-lit-fuel-all = no se enciende nada: combustible en total
line-on-all-legs = para llevar en todos los tramos
line-one-filling-heats-most = lo máximo que calienta una carga
line-person-day = necesidad probable, por persona y día
line-pot-loses-at-boil = calor que la olla de { $pot } pierde al hervir (viento: { $wind })
line-pot-surface = superficie de la olla de { $pot }, tan alta como ancha
line-potful-largest-pot = lo que se llena la olla más grande
line-pressure-air = presión del aire
line-same-degrees = lo mismo en grados
line-share-fuels-heat-stays = parte del calor del combustible que queda en la olla, sin lo perdido en el camino
line-share-that-reaches = parte del calor del combustible que llega a la olla
line-share-what-set = parte de la potencia pedida
line-sideways-push-rim-tips = empuje de costado en el borde que la vuelca
line-stays-at-end = lo que queda de ese calor al final
line-stays-at-start = lo que queda de ese calor al principio
line-stays-in-the-mean = lo que queda de ese calor en el camino: la media, calculada en pasos chicos
line-still-share = parte del calor del combustible que llega a la olla en aire quieto
line-stops-at = así nunca hierve: se queda en
line-stops-before = así nunca llega: se queda en
line-tilt-tips-slope-edge = inclinación que la vuelca, como pendiente: borde sobre altura
line-too-little-this-stove = muy poco: esta cocinilla no sirve; se cuenta como
line-useful-heat = calor útil
line-useful-heat-for = calor útil ({ $part })
line-useful-heat-in-all = calor útil en total
line-useful-heat-none = calor útil ({ $part }): el agua ya está bastante caliente
line-vapour-pressure = presión de vapor a esa temperatura
line-wash-water = agua de lavado por día ({ $washing })
line-water-end = agua al final
line-water-for = agua ({ $part })
line-water-for-each-in-litres = agua ({ $part }) por persona, { $ounces } fl oz en litros
line-water-for-people = agua ({ $part }), { $people } personas
line-whole-steps = pasos, hasta el próximo entero
line-without-lid-open-top = sin tapa, lo que se evapora por arriba
line-worst-case-full-power = peor caso a potencia plena, sin calor de afuera: se enfría
line-would-need-under-lid = haría falta más que esto, con tapa
line-your-steps = pasos suyos de { $step } m

## Lo que va detrás de una línea

why-as-stated = como se indicó
why-as-warm-as-water = a la temperatura de su agua
why-basis = { $basis }
why-basis-and-sources = { $basis } { $sources }
why-basis-of-place = { $basis } { $place }
why-filled-cylinders = { $basis }: cilindros llenos
why-gas = { $gas } { $value }
why-gases = { $some }, { $more }
why-lower-heating-value = poder calorífico inferior { $sources }
why-mean-by-mass = media en masa de { $blend }: { $gases }
why-place = { $place } { $sources }
why-solved-by-seconds = resuelto segundo a segundo: el aire y el quemador lo calientan, el vapor lo enfría
why-sources = { $sources }
why-tall-as-wide = { $basis }: una olla tan alta como ancha
why-until-measured = { $basis } hasta que mida la suya
why-usual-pots = { $basis }: masa usual de ollas así
why-verdicts = bien desde 75, lento desde 40, por debajo débil: { $basis }
why-your-trial = su prueba de consumo
why-bound-not-forecast = un límite, no un pronóstico
why-close-to-mean = cerca de la media exacta
why-common-practice = práctica común
why-count-your-own = cuente los suyos
why-density-about-15-c = densidad a unos 15 °C
why-draws = 4096 sorteos, calculados sin redondear
why-from-table = de la tabla
why-heat-balance = balance de calor
why-litre-taken-kilogram = un litro se toma como un kilogramo
why-raoults-law = ley de Raoult
why-reference-boil = para que { $percent } % quede en el hervor de referencia
why-rest-warms-air = el resto calienta el aire
why-rest-warms-air-once = el resto calienta el aire enseguida
why-rounded-down = { $number } redondeado hacia abajo
why-rounded-up = { $number } redondeado hacia arriba
why-rounded-up-to-5-g = { $number } redondeado hacia arriba a 5 g
why-rounded-up-to-whole = { $number }, redondeado hacia arriba
why-rule-set = la regla de hervor de la salida
why-standard-atmosphere = Atmósfera Estándar de EE. UU. 1976
why-standard-atmosphere-1976 = atmósfera estándar 1976
why-steam-tables = IAPWS-IF97
why-taste-no-rule-replaces = pruebe: ninguna regla reemplaza un bocado
why-trip = la salida

## Avisos que nacen de los números

caution-adults = Cocinillas encendidas: { $lit }. Adultos que hacen falta a su lado: { $needed }; hay { $adults }. Encienda menos a la vez. Ninguna llama sin un adulto al lado.
caution-cannot-hold = { $kitchen }: esta cocinilla ({ $stove }) no puede mantener un hervor suave con este viento: la olla pierde más de lo que da la llama. Lleve comida que solo pide un hervor, una olla más chica, o busque reparo.
caution-cold-canister =
    { $turns ->
        [0] { $kitchen }, { $meal } en { $camp }: { $how }. Para quien guía: 1. Tome un cartucho más lleno y con más propano, u otra cocinilla. 2. Antes entibie este dentro de una chaqueta, fuera de la cocinilla, cerrado, con su tapa y lejos de toda llama. 3. Mientras arde la cocinilla, toque el cartucho seguido: si está tibio a la mano, apáguela.
       *[other] { $kitchen }, { $meal } en { $camp }: { $how }. Para quien guía: 1. Tome un cartucho más lleno y con más propano, u otra cocinilla. O, si el fabricante de la cocinilla prevé el gas líquido, enciéndala con el cartucho derecho y delo vuelta cuando el tubo esté caliente. 2. Antes entibie este dentro de una chaqueta, fuera de la cocinilla, cerrado, con su tapa y lejos de toda llama. 3. Mientras arde la cocinilla, toque el cartucho seguido: si está tibio a la mano, apáguela.
    }
caution-fills = { $kitchen } ({ $meal }): hacen falta { $fills } cargas del quemador, cada una con el quemador ya frío. Esta cocinilla no sirve para esta cocina. Nunca recargue un quemador encendido o caliente.
caution-fire-rule-unknown = No se conoce la norma de fuego: pregunte a la autoridad del lugar; anote el nivel, quién se lo dijo y cuándo.
caution-fire-rule-stage-only = Norma de fuego "{ $stage }": no se sabe qué cocinillas se pueden encender; por eso no se autoriza nada. Pregunte a la autoridad del lugar; anote qué cocinillas, quién se lo dijo y cuándo.
caution-liquid-feed = { $kitchen } usa gas líquido: solo en una cocinilla cuyo fabricante lo prevé. Enciéndala con el cartucho derecho, y delo vuelta cuando el tubo esté caliente.
caution-never-boils = { $kitchen } ({ $meal }, { $camp }): en esta cocinilla la olla nunca hierve: se queda en { $at }. Nada de lo que aquí se conoce lo lograría: planee esta comida en frío. Hasta que hierva, no se cuenta combustible para esta cocina.
caution-never-boils-unless = { $kitchen } ({ $meal }, { $camp }): en esta cocinilla la olla nunca hierve: se queda en { $at }. Lo lograría: { $remedies }. Hasta que hierva, no se cuenta combustible para esta cocina.
caution-no-flame = Norma de fuego: prohibido encender cocinillas. Todas las comidas son frías.
caution-no-flame-by-stage = Norma de fuego "{ $stage }": prohibido encender cocinillas. Todas las comidas son frías.
caution-no-plan = { $kitchen }: esta cocinilla ({ $stove }) no sirve para esta época ({ $season }). Tome otra cocinilla.
caution-no-simmer = { $kitchen }: en esta cocinilla ({ $stove }) la llama no se puede bajar. Lleve la olla a hervor, ponga la tapa, sáquela del calor y déjela envuelta y abrigada.
caution-of-kitchen = { $kitchen }: { $says }
caution-second-stove = Toda el agua de aquí depende de una sola cocinilla: donde hay que sacarla de la nieve, lleve una segunda cocinilla.
caution-stale-rules =
    Normas leídas hace mucho: { $count } (hasta { $days } { $days ->
        [one] día
       *[other] días
    }). Pregunte otra vez a la autoridad del lugar.
caution-strange-canisters = No se entregan, porque no se unen a ninguna cocinilla de esta salida: { $tags }.
caution-too-cold = { $kitchen }: con este frío los cartuchos no pueden dar lo que la salida necesita, por muchos que se lleven. Tome una mezcla más rica en propano u otra cocinilla.
caution-unknown-canisters = No se entregan, porque no se sabe qué tienen adentro: { $tags }. Lea el peso vacío en la etiqueta o pese uno vacío de la misma marca, y anótelo como `tare`.
caution-unusual = { $kitchen }: { $grams } g de combustible por persona y día no es lo usual ({ $season }: { $low } a { $high } g). Revise el agua, el viento y cuánto se cocina.
caution-will-not-boil = { $kitchen } ({ $camps }): con el viento de allí, puede que esta cocinilla no llegue a hervir con su paravientos ("{ $screen }"). Busque reparo, o tome una cocinilla con un paravientos adecuado.
cold-canister-fails = con este frío el cartucho no alcanza
cold-canister-gives = el cartucho frío da el { $share } % de su llama
unknown-and = { $some }; { $more }
unknown-canister = { $tag } ({ $size }: uno vacío suele pesar de { $low } a { $high } g)

## Lo que haría hervir una olla

remedy-lid = una tapa en la olla
remedy-none = nada de lo que aquí se conoce la haría hervir; planee esta comida en frío
remedy-or = { $some }; o bien { $more }
remedy-pot = una olla de { $most } como máximo
remedy-screen = un paravientos { $screen }
remedy-stove = otra cocinilla ({ $stove })
remedy-takes = hace falta { $remedies }

## Cocinillas lado a lado

stove-ask-restrictions = no se conocen las restricciones de fuego: pregunte a la autoridad del lugar, anote qué cocinillas se permiten y quién lo dijo
stove-ask-stage = el nivel no dice si se pueden encender cocinillas: pregunte a la autoridad del lugar
stove-ask-valve = sin válvula de cierre: pregunte a la autoridad del lugar si se permiten cocinillas así
stove-indoors = bajo techo no se enciende nada
stove-may-not-boil = con el viento de algún campamento puede que no hierva nunca detrás de su paravientos usual
stove-may-not-boil-own = con el viento de algún campamento puede que no hierva nunca detrás del paravientos que tiene la nuestra
stove-never-boils = nunca hierve: la olla ({ $meal }) se queda en { $at }; { $remedy }
stove-never-boils-at-all = nunca hierve: la olla ({ $meal }) se queda en { $at }, y no hay tapa, paravientos ni olla que ayude
stove-no-flame = las restricciones no permiten encender ninguna cocinilla
stove-too-cold = demasiado frío: un cartucho nuevo con la mezcla usual no funciona en todas las comidas
stove-without-valve = las restricciones piden una válvula de cierre; esta cocinilla no la tiene

## Cómo se sostiene una cocinilla

stand-large-pot = Olla grande sobre un cartucho: { $pot } es más que { $limit }. Encierra el calor sobre el cartucho y se vuelca fácil; tome una olla más chica o una cocinilla con patas, y vea el límite del fabricante.
stand-legs = Tres patas plegables con los pies a { $feet } mm del centro: { $legs } grados en lugar de { $bare }.
stand-legs-worse = Tres patas plegables con los pies a { $feet } mm del centro lo harían peor: { $legs } grados en lugar de { $bare }. Las patas solo ayudan si llegan bastante más allá del cartucho.
stand-level = Antes de esta inclinación las ollas resbalan y el suelo blando cede, y además puede venir un golpe: nivele la cocinilla y deje despejado alrededor. Una pendiente de { $slope } grados bajo esta base son { $shim } mm de cuña.
stand-wide-pot = Olla ancha: la olla de { $pot } ({ $across } mm de ancho, si es tan alta como ancha) sobresale de su cartucho ({ $canister }, { $its } mm): el calor vuelve sobre el cartucho. Tóquelo de costado; si está tibio, apague la cocinilla.

## Lo usual

season-shoulder = entretiempo
season-some-snow = algunas noches con agua de nieve
season-summer-boil-only = verano, solo hervir
season-summer-hot-wash = verano, se lava con agua caliente
season-winter = invierno, toda el agua de nieve
usual-boiled-water = los rangos usuales no cuentan el agua para beber que se hierve
usual-never-boils = una olla de este menú nunca hierve en esta cocinilla
usual-no-day = una clase no es un día de marcha

## Comidas y lavado

meal-cold = en frío
meal-hot = en caliente, { $water }
meal-hot-and-simmers = en caliente, { $water } + { $minutes }
wash-method-usual = colar, embolsar los restos y esparcir en la tierra

## De dónde viene la duda

doubt-of =
    { $input-id ->
        [amount] cantidad
        [efficiency] eficiencia
        [loss] pérdida
        [spill] derrames
        [water] agua
       *[wind] viento
    }

## Si algo vale aquí

applies-always = vale siempre
applies-and = { $some }; { $more }
applies-or = { $some }; { $more }
applies-or-not = { $some }, y { $more }
applies-kind = se trata de: { $kind }
applies-kind-not = solo para: { $kind }
applies-flame = se puede encender una cocinilla
applies-no-flame = no se puede encender ninguna cocinilla
applies-only-without-flame = solo donde no se puede encender ninguna cocinilla
applies-fuel = el combustible de { $kitchen } es { $fuel }
applies-fuel-not = el combustible de ninguna cocina es { $any }
applies-stove = { $kitchen } cocina con { $stove }
applies-stove-not = nadie cocina con { $any }
applies-colder = noches de menos de { $limit } en { $camp }
applies-colder-not = ninguna noche baja de { $limit }
applies-higher = { $camp } está a más de { $limit }
applies-higher-not = ningún campamento está a más de { $limit }
applies-people = { $people } personas
applies-people-not = menos de { $people } personas
applies-young = puede haber alguien de corta edad
applies-young-not = nadie tiene menos de { $age } años
applies-place = { $camp } está en: { $place }
applies-place-not = ningún campamento está en: { $any }
applies-place-only = todos los campamentos están en: { $any }
applies-water = agua de { $from } en { $camp }
applies-water-not = no hay agua de { $any }
applies-windscreen = { $kitchen } tiene el paravientos "{ $screen }"
applies-windscreen-not = ninguna cocina tiene el paravientos { $any }
applies-arrival = la forma en que llegan
applies-arrival-not = no llegan así: { $any }
applies-treatment = tratamiento del agua: { $how }
applies-treatment-not = el agua no se trata así: { $any }
applies-washing = los platos se lavan así: { $how }
applies-washing-not = los platos no se lavan así: { $any }
applies-diet = alguien tiene una dieta o alergia
applies-diet-not = no se indicó ninguna dieta
any-of = { $some } o bien { $more }

## Una prueba de consumo

trial-few-runs = con tres ensayos o más se ve cuánto puede errar un solo hervor
trial-several-winds = los ensayos se hicieron con distintos vientos: pegue un solo bloque, mejor el del viento que espera
trial-unusual = { $percent } % no lo tiene casi ninguna cocinilla (10 a 75 %): ¿se pesó el combustible en gramos y no en onzas, con las mismas piezas puestas, y es el combustible que se nombra?
trial-without-pot = no se pesó la olla: su parte (cerca de 1 %) falta en la cifra con que se planea
trial-without-stove = no se indicó la cocinilla: escriba { "`stove`" }, { "`screen`" }, { "`pot.capacity`" } y { "`air`" }, y la cifra se lleva a aire en calma, con cualquier viento que haya tenido la prueba
trial-without-wind = un ensayo sin viento indicado se toma como hecho en aire en calma

## Lo que varios campamentos comparten, rangos, tiempos

assumed-of-every-camp = todos los campamentos: { $what }
from-to = { $low } a { $high }
length-none = ninguna
time-in-days = { $days } días
