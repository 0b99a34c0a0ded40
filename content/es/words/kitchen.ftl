# Las palabras de los papeles de la cocina: tarjeta, cálculo del combustible, hoja para participantes, hoja de salida,
# lista de equipaje, depósito.

## Se dice en muchas hojas

people-count =
    { $people ->
        [one] { $people } persona
       *[other] { $people } personas
    }
learners-count =
    { $learners ->
        [one] { $learners } participante
       *[other] { $learners } participantes
    }
instructors-count =
    { $instructors ->
        [one] { $instructors } instructor
       *[other] { $instructors } instructores
    }
nights-count =
    { $nights ->
        [one] { $nights } noche
       *[other] { $nights } noches
    }
number-in-words =
    { $number ->
        [0] ninguno
        [1] uno
        [2] dos
        [3] tres
        [4] cuatro
       *[other] { $number }
    }
date-not-set = fecha sin fijar
no-flame-without-adult = Ninguna llama sin un adulto a su lado.
every-camp = todos los campamentos
this-place = este lugar
not-given = no se indicó
not-known = no se sabe
not-stated = sin dato
push-as-weight = { $newtons } N (el peso de { $grams } g)
pot-name = { $material } { $litres } L
stoves-may-be-lit = se pueden encender cocinillas
stoves-with-valve-may-be-lit = solo se pueden encender cocinillas con válvula de cierre
stoves-may-not-be-lit = no se puede encender ninguna cocinilla: no se enciende nada
fire-none-at = no se puede encender ninguna cocinilla en { $camps } ({ $rule }): allí las comidas son frías y no se cuenta combustible para ellas
fire-not-known-from = desde el { $day } no se conoce la norma y no se autoriza nada: pregunte a la autoridad del lugar
fire-stage-only = { $stage }; no se sabe qué cocinillas se pueden encender, y por eso no se autoriza nada
stove-burning = { $stove }, con { $fuel }
meal-at = { $meal } en { $camp }
item-at-some-camps = { $item } (en { $count } de los campamentos)

## La tarjeta de cocina

card-set-up = Preparar
card-light = Encender
card-cook = Cocinar y servir
card-clean-up = Limpiar
card-night = Noche
card-leave = Partir
card-adults =
    { $adults ->
        [one] { $adults } adulto junto a cada cocinilla encendida
       *[other] { $adults } adultos junto a cada cocinilla encendida
    }
card-other-side = { $item }: según la norma de cada campamento
card-head-night = Noche
card-head-after-night = Tras la noche
card-head-left = g restantes (margen)
card-head-left-of = { $kitchen }: g restantes (margen)
card-head-left-and-scale = g restantes (margen); balanza
card-head-we-have = Tenemos
card-left = { $left } ({ $low } a { $high })
card-left-on-scale = { $left } ({ $low } a { $high }); balanza { $scale }
change-will-not-boil = una olla no hervirá
change-no-more = como lo planeado
change-may-not-boil = { $fuel }, y tal vez no hierva
no-scale-canister = Sin balanza: en casa haga flotar el cartucho de pie, lleno y vacío, y marque las dos líneas; la de hoy cae entre ellas.
no-scale-bottle = Sin balanza: varilla limpia en la botella de pie, marcada en casa: llena, mitad y un cuarto.
no-scale-tablets = Sin balanza: cuente las pastillas.

## El cálculo del combustible

fuel-no-meal = ninguna comida
fuel-the-camp = el campamento
fuel-covers = { $fuel } bastan en { $trips }
fuel-trips-covered = { $percent } de cada 100 salidas como esta
fuel-efficiency-measured = La eficiencia es la suya, medida en una prueba de consumo.
fuel-efficiency-assumed = La eficiencia es un supuesto hasta que mida la suya: haga una prueba de consumo en casa (hoja de revisión previa).
given-height = altitud
given-boils = el agua hierve a
given-snow = nieve
given-water = el agua, como viene
given-wind = viento (clase)
given-pots = ollas
given-still-share = parte del calor del combustible que llega a la olla con aire quieto
given-left-in-wind = lo que queda de ella con este viento
given-heat = calor del combustible
given-heat-a-gram = { $kilojoules } kJ por gramo
given-to-light = combustible para encender
given-each-lighting = { $grams } g cada vez que se enciende
working-air = Aire y punto de ebullición en { $camp }
working-lost = Calor perdido en el aire: { $meal }
working-minutes = Minutos: { $meal }
blank-line = [línea { $number }]
blank-loss = [pérdida { $number }]
blank-to-a-full = hacia arriba, al múltiplo de { $step }
blank-add-camps = sume los campamentos
blank-add-totals = sume los totales de arriba
form-scout = buscar y multiplicar
form-with-losses = con pérdidas
usual-none-fits = ningún rango corresponde
usual-not-held = No se compara con un rango usual: { $why }.
usual-no-plan = sin rango: en el oficio nadie planea así esta cocinilla
usual-choose-another = Inusual: nadie planea esta cocinilla para: { $season }. Elija otra.
usual-range = { $low } a { $high } g ({ $season })
usual-inside = Dentro del rango usual para esta cocinilla y esta época (práctica común, sin fuente).
usual-check = Inusual: revise el agua y el viento antes de confiar en el resultado.

## Lo que se entrega a una cocina

handed-at = en { $camp }
handed-at-start = al inicio
handed-needs = necesita { $needed }
handed-needs-practice = necesita { $needed } ({ $practice } para practicar)
handed-issued = necesita { $needed }, se dan { $issued }
handed-issued-practice = necesita { $needed } ({ $practice } para practicar), se dan { $issued }
handed-in = { $sums } en { $count }: { $containers }
handed-stops = { $meals }: se queda en { $at }; { $remedy }
handed-stays-cold = sin combustible: en esta clase no se enciende
handed-will-not-boil = no hervirá: { $each }. No se cuenta ni se entrega combustible hasta que todo hierva
containers-count =
    { $count ->
        [one] { $count } recipiente
       *[other] { $count } recipientes
    }
containers-new =
    { $count ->
        [one] { $name } sin usar ({ $grams })
       *[other] { $count } × { $name } sin usar ({ $grams } por unidad)
    }
container-new = { $name }, sin usar
container-new-of = { $name }, sin usar, { $number } de { $of }
container-fill = ponga { $fill }, no más ({ $net })
container-fuel = { $net } de combustible
container-packed = { $name }: ponga { $fill }, no más
starts-with = { $needed } (supuesto)
starts-with-issued = { $issued }, { $count } (necesita { $needed }, supuesto)
starts-from = desde { $camp }: { $starts }
starts-with-nothing = sin combustible, porque { $why }

## Adónde va el agua de lavado

wash-in-steps = { $distance } = { $steps } pasos
wash-no-distance = la norma de aquí no pide distancia
wash-no-distance-from = sin distancia desde { $from }
wash-from = { $distance } desde { $from }
wash-soap-far = { $soap }; a { $distance } de distancia
wash-and-soap = { $method }; { $distance }; jabón: { $soap }
wash-without-soap = { $method }; { $distance }

## Los números de la hoja para participantes

numbers-boils = El agua hierve en { $of }
numbers-boils-up = a { $boils } ({ $height } de altitud)
numbers-fuel =
    { $count ->
        [one] Combustible para { $of }
       *[other] Combustible para { $of }, cada una
    }
numbers-fuel-likely = { $fuel }; supuesto, probable { $likely } en total; { $stove }
numbers-fire-rule = Norma de fuego: { $of }
numbers-wash = Agua de lavado en { $of }
numbers-wash-in-steps = { $wash } (pasos suyos de { $step })
numbers-push = Empuje en el borde que la vuelca: { $of }
numbers-push-and-tilt = { $push }; ángulo { $tilt }
numbers-drinking-water = Agua para beber
treated-tap = de un grifo seguro
treated-boiled = hervida
treated-boiled-for = hervida, con hervor fuerte por { $time }
treated-filter = por un filtro; un filtro que se congeló mojado ya no sirve
treated-chemical = con un producto químico, durante el tiempo que dice su etiqueta
treated-uv = con luz UV, solo agua clara

## La hoja de salida

briefing-leader = Quien guía
briefing-food-differs = quien guía lee la norma de cada campamento, en la hoja de ingreso
briefing-see-handout = { $first }; qué hacer está en la hoja para participantes.

## La lista de equipaje

pack-pot = Olla con tapa, { $pot }
pack-stove = Cocinilla: { $stove }
pack-second-stove = Segunda cocinilla, para todas las cocinas
pack-spares = Repuestos de la cocinilla: { $spares }
pack-fuel = Combustible: { $fuel }
pack-handed-out-at = Se entrega en { $camp }, no va en esta bolsa

## Elección de la cocinilla

stove-here-yes = sí
stove-here-no = no
stove-here-ask = preguntar
stove-no-carbon = ninguno
fuel-heat-range = { $likely }, de { $low } a { $high } según la fuente y la mezcla

## Depósito y escritorio

issued-on-scale = { $sums }, { $gross } en la balanza
efficiency-in-calm-air = { $percent } % con aire quieto
shake-down-water = toda el agua que cocina de una vez
night-at-home = casa
checked-by-nobody = nadie
rule-from-trip = salida
rule-from-default = valor por defecto
rule-read-on = leído el { $date }
source-undated = Sin fecha

## De qué son las ollas

word-aluminium = aluminio
word-titanium = titanio
word-stainless = acero inoxidable
