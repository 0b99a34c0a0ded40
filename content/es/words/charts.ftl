# Las palabras de los dibujos y de los papeles que acompañan a las hojas: gráficos, consejos, qué pasa si,
# de dónde sale un valor, la portada, los juegos, los papeles de una temporada, etiquetas, índice.

## Gráficos: una clase como línea de tiempo

chart-adults-free = adultos libres
chart-burns-here = aquí arde una cocinilla
chart-all-or-line = todos, o la fila
chart-clock = Quién está dónde, de { $from } a { $until }. Las letras son grupos; los números, sus participantes.
chart-clock-about = Una línea de tiempo con un carril para cada lugar.
chart-bar = { $from }-{ $until } { $who }
chart-bar-lit = { $from }-{ $until } { $who }, arde una cocinilla

## Gráficos: masa por noches, presión según lo que queda

chart-pounds = libras
chart-kilograms = kilogramos
chart-nights = noches
chart-crossing =
    { $nights ->
        [one] { $number }: { $after } pesa menos que { $before } desde { $nights } noche
       *[other] { $number }: { $after } pesa menos que { $before } desde { $nights } noches
    }
chart-crossing-line = cruce { $note }
chart-by-nights = { $stove }: { $one } para 1 noche, { $some } para { $half }, { $most } para { $nights }
chart-masses = Cocinillas, envases y combustible al inicio, según las noches, todo llevado de una vez.
chart-masses-with-rings = Cocinillas, envases y combustible al inicio, según las noches, todo llevado de una vez. Círculos: donde dos pesan lo mismo.
chart-masses-about = Líneas de lo que se lleva al inicio según el número de noches, una por cocinilla.
chart-pressures = { $canister }: { $full } al encender, { $half } con la mitad de eso, { $tenth } con un décimo
chart-least-pressure = lo mínimo para esta cocinilla: { $least }
chart-stove-needs = mínimo: { $least } kPa
chart-gauge-pressure = kPa sobre la presión del aire
chart-grams-left = gramos de combustible que quedan en el cartucho
chart-pressure = Presión en el cartucho en uso, en la comida más fría de cada campamento, al encender la cocinilla; al arder se enfría más.
chart-pressure-of-some = Presión en el cartucho en uso, en la comida más fría de cada campamento, al encender la cocinilla; al arder se enfría más. Los { $most } campamentos, de { $all }, con menos presión.
chart-pressure-about = Líneas de la presión según el combustible que queda, una por campamento.

## Gráficos: un cartucho durante una comida

chart-flame-of = llama, de { $power } kW
chart-pressure-of = presión, de { $gauge } kPa
chart-percent-of-lit = % de lo que es al encender, o de la llama entera
chart-minutes-of-flame = minutos de llama
chart-new-canister = un cartucho nuevo
chart-canister-tagged = el cartucho { $tag }
chart-after-minutes = a los { $minutes }: { $gauge }, { $power }
chart-through = La comida que más le exige ({ $meal }, { $camp }) con { $canister }: { $verdict }. Al arder se enfría, la presión baja y con ella la llama.
chart-through-about = Líneas de la llama y de la presión según los minutos de llama.

## Gráficos: lo que queda de combustible

chart-start = inicio
chart-new-fuel = recarga
chart-new = más
chart-night = noche { $night }
chart-handed-out = entregado en { $camp }: { $level }
chart-at-the-start = al inicio: { $level }
chart-gauge-beside = Línea: lo planeado. Rayado: el margen.
chart-gauge = { $kitchen }: gramos de combustible en los envases al inicio y después de cada noche. Línea: lo planeado. Rayado: el margen en que debe quedar.
chart-gauge-about = Una fila de medidores del combustible en los envases.
chart-after-night = después de la noche { $night } en { $camp }: quedan { $left }, entre { $low } y { $high }

## Gráficos: el campamento desde arriba

chart-steps =
    { $steps ->
        [one] { $steps } paso suyo
       *[other] { $steps } pasos suyos
    }
chart-camp-from-water = cocina y campamento, desde el agua: { $far }, { $steps }
chart-wash-water = agua de lavado
chart-wash-from-water = agua de lavado, desde el agua y desde el campamento: { $far }, { $steps }
chart-each-side = cada lado
chart-apart = carpas, cocina y comida guardada, entre sí: { $far }, { $steps }
chart-tents = carpas
chart-food-store = comida
chart-kitchen = cocina
chart-water = agua
chart-places = Desde arriba, a escala: { $camps }. Carpas y comida guardada: según las normas del lugar; ni llamas ni gases cerca de las carpas.
chart-places-apart = Desde arriba, a escala: { $camps }. Carpas, cocina y comida guardada a esta distancia si la autoridad del lugar no da otra cifra.
chart-places-about = Plano desde arriba con el agua a la izquierda.

## Gráficos: la cocinilla con su olla

chart-push-of = Un empuje de { $force }
chart-at-the-rim = en el borde la vuelca
chart-pot = olla
chart-water-in-pot = agua
chart-centre-of-mass = centro de masa
chart-canister = cartucho
chart-tips-when-tilted = se vuelca a { $tilt }
chart-tipping-push = empuje de costado en el borde que la vuelca: { $push }
chart-tipping-tilt = inclinación a la que se vuelca: { $tilt }
chart-rim-height = altura del borde sobre el suelo: { $height }
chart-base = desde el centro de la base hasta su borde más cercano: { $base }
chart-stack = { $kitchen } con su olla de { $pot }, a escala (se toma una olla tan alta como ancha): { $stove } en suelo firme y nivelado. En suelo blando o con un golpe: menos.
chart-stack-about = Una cocinilla con su olla, vista de lado.

## Gráficos: cocinillas una junto a otra, combustible por uso, qué medir

chart-fuel = combustible
chart-stoves-containers = cocinillas, envases
chart-not-allowed = { $stove }: no permitido
chart-ruled-out =
    { $stove }: { $why ->
        [cold] demasiado frío
        [wind] viento
       *[boil] nunca hierve
    }
chart-ask = { $stove }: preguntar
chart-carried = { $stove }: { $start }, de eso { $fuel } de combustible
chart-stoves = Lo que se lleva al inicio, todas las cocinas juntas. Cada barra empieza en cero; ninguna está cortada.
chart-stoves-about = Barras de la masa que se lleva al inicio, una por familia de cocinillas.
chart-to-cook = para calentar y cocinar
chart-to-melt = para derretir nieve
chart-to-light = para encender
chart-use-melting = { $name }: { $fuel }, de eso { $melt } para derretir nieve
chart-use-lighting = { $name }: { $fuel }, de eso { $light } para encender la cocinilla
chart-use-both = { $name }: { $fuel }, de eso { $melt } para derretir nieve y { $light } para encender la cocinilla
chart-uses = Combustible por uso, { $kitchen }: necesidad probable de todas las noches, sin lo que se derrama.
chart-uses-about = Barras del combustible para cada uso.
chart-of-the-spread = { $input }: { $percent } de la dispersión
chart-percent = { $percent } %
chart-spread = Qué medir primero: { $input }.
chart-spread-about = Barras de la parte de la dispersión que causa cada dato incierto.
chart-input-efficiency = eficiencia de su cocinilla
chart-input-wind = viento en la cocinilla
chart-input-water = temperatura del agua
chart-input-amount = cantidad de agua usada
chart-input-spill = combustible derramado
chart-input-loss = pérdida

## Consejos

advice-this-place = este lugar
advice-pot-filling =
    { $now ->
        [one] Olla: { $now } tanda para { $meal } en { $camp }, porque una carga del quemador no hierve más; una olla más grande no cambia nada.
       *[other] Olla: { $now } tandas para { $meal } en { $camp }, porque una carga del quemador no hierve más; una olla más grande no cambia nada.
    }
advice-pot-bears = Con más de { $pot }, esta cocinilla lleva una advertencia: la olla encierra el calor sobre el cartucho.
advice-pot-overhangs = Una de { $pot } sobresaldría demasiado de su cartucho.
advice-pot-never-boils = Una de { $pot } perdería en alguna comida más calor del que le da esta llama.
advice-pot-one-batch = Olla: cada comida cabe en una tanda; una olla más grande solo perdería más calor.
advice-pot-keep =
    { $now ->
        [one] Olla: conserve la suya; { $now } tanda para { $meal } en { $camp }, y ninguna olla para esta cocinilla pide menos.
       *[other] Olla: conserve la suya; { $now } tandas para { $meal } en { $camp }, y ninguna olla para esta cocinilla pide menos.
    }
advice-pot-larger =
    { $count ->
        [one] Olla: con una de { $pot }, { $count } tanda para { $meal } en { $camp } ({ $water } de agua); con las suyas, { $now }.
       *[other] Olla: con una de { $pot }, { $count } tandas para { $meal } en { $camp } ({ $water } de agua); con las suyas, { $now }.
    }
advice-pot-tilt = Llena, se vuelca con una inclinación de { $angle }: no es una promesa, nivele la cocinilla.
advice-melt = Nieve en { $camp }: esta cocinilla derrite unos { $in_an_hour } por hora; son { $time } al día para { $a_day } de agua para beber. Empiece antes de la cena, con algo de agua debajo de la nieve.
advice-burn-container = un envase lleno ({ $name }, { $fuel } para quemar)
advice-burn-filling = una carga del quemador ({ $fuel })
advice-burn = Llama para enseñar: { $what } da { $full } a llama entera con aire templado, { $least } con la llama mínima.
advice-burn-always-full = Llama para enseñar: { $what } da { $full }; no se puede bajar.
advice-lightest = El equipo más liviano de las cocinillas que aquí no están excluidas: { $stove }, { $start } al inicio con todo lo que lleva.
advice-lightest-own = El equipo más liviano de las cocinillas que aquí no están excluidas: { $stove }, que ya tiene, { $start } al inicio con todo lo que lleva.
advice-lightest-ask = Hay que preguntar si aquí se puede encender.
advice-wind = Viento: un pronóstico vale a { $height } sobre el suelo; en terreno abierto y parejo, cerca del { $share } % llega a una cocinilla. Por debajo de { $calm }, cuente con calma; por debajo de { $breezy }, con brisa; por encima, con viento fuerte o sin llama. En filos, en pasos y con ráfagas hay más: guíese por lo que siente donde está la cocinilla.

## Una cosa cambiada

change-as-planned = como está planeado
change-wind = viento en todas partes: { $wind }
change-more-wind = más viento, un escalón
change-lids-on = con tapas
change-no-lid = sin tapa
change-colder = { $by } más frío
change-warmer = { $by } más cálido
change-person-more = una persona más
change-night-more = una noche más en { $camp }
change-higher = { $by } más arriba, y por eso más frío
change-from-snow = toda el agua, de nieve
change-larger-pot = la olla más grande, una mitad más grande
change-stove = cocinilla: { $stove }
trouble-stops = nunca hierve ({ $meal }): se queda en { $at }
trouble-cannot-hold = no puede mantener un hervor suave
trouble-canister = cartucho ({ $meal }): { $verdict }
trouble-may-not-boil = puede que no hierva con este viento
change-works = sí
change-look = atención: { $why }

## De dónde sale un valor

from-the-trip = lo dice el archivo de la salida
from-assumed = supuesto, porque el archivo de la salida no lo dice
from-worked-out = calculado
from-fact-as-of = { $fact }, al { $date }
from-rule-of-trip = una norma que indica el archivo de la salida
from-rule-of-none = la norma cuando no se conoce otra
from-rule-of-place = una norma del lugar { $place }
from-rule-checked = { $rule }, consultada: { $checked }
why-assumed = Supuesto: { $what }

## La portada

front-when = Cuándo
front-who = Quiénes
front-fuel = Combustible, { $kitchen } ({ $fuel })
front-fuel-at = Combustible, { $kitchen } ({ $fuel }), { $place }
front-unknown = no se indica: pregunte antes de salir
front-fire-rule = Norma sobre el fuego
front-emergency = Emergencia
front-call = llame al { $number }
front-nearest-help = Ayuda más cercana
front-no-day = día sin indicar
front-nights =
    { $nights ->
        [one] { $starts }, { $nights } noche
       *[other] { $starts }, { $nights } noches
    }
front-people =
    { $learners ->
        [one] { $learners } participante
       *[other] { $learners } participantes
    } y { $instructors ->
        [one] { $instructors } instructor
       *[other] { $instructors } instructores
    }
front-people-diet = { $people }; dieta: { $diet }

## Juegos de hojas, etiquetas, emblemas, el pie de una página

bundle-tonight = Para esta noche
bundle-learners = Para participantes
bundle-field = Para el terreno
bundle-office = Para la oficina
bundle-all = Todas las hojas
bundle-about = sus hojas en un archivo, en el orden en que se usan; copias como indica cada carpeta
label-alt = Etiqueta: { $name }
mark-caption = Emblema de { $name }
mark-alt = El emblema de { $name }.
foot-content = Contenido del { $edition }.
foot-revision = Contenido del { $edition }. Revisión { $revision }.
print-both-sides = ambas caras

## Los papeles de una temporada

red-no-fire-rule = norma sobre el fuego desconocida
red-no-stove = no se puede encender ninguna cocinilla
red-known-until = norma sobre el fuego conocida solo hasta el { $until }
red-nobody-asked = no se indica quién preguntó por la norma sobre el fuego
red-no-first-day = sin primer día
red-no-number = sin número al que llamar
red-no-tare = el cartucho { $tag } no tiene peso vacío conocido
red-older = los papeles son más viejos que la tabla
red-to-order = no está en el estante, hay que pedirlo: { $containers }
red-asked-after = se preguntó por la norma sobre fuego el { $asked }, después del primer día
red-asked-long-before = se preguntó por la norma sobre fuego el { $asked }, más de un mes antes
red-tag-twice = { $tag } está también con { $departure } en esos días
red-no-papers = sin papeles
red-no-papers-why = sin papeles: su fila tiene un problema, o todavía no se hicieron
season-title = Temporada: { $season }
season-departures = Grupos
season-to-see-to = Por resolver
season-where = Dónde
season-way-list = Lista de días, y qué tener a mano
season-way-list-to-print = Lista de días, para imprimir
season-way-workbook = Esta tabla como libro de cálculo
season-way-csv = Esta tabla como CSV, para cualquier hoja de cálculo
season-way-day = Para la imprenta: { $day }
season-way-day-part = Para la imprenta: { $day }, parte { $part }
season-way-week = Para la imprenta: semana del { $monday }
season-way-week-part = Para la imprenta: semana del { $monday }, parte { $part }
season-foot = Hecho con la tabla y con los juegos de hojas que están junto a esta carpeta.
season-days = { $title }: días
season-no-day = Sin día todavía
season-come-back = Vuelven este día: { $departures }
season-rows-left-out = filas no tomadas, vea el mensaje del programa
season-back = vuelta
season-departure = Grupo
season-trip = Salida
season-take = Llevar
season-see-to = Por resolver
season-order-no-day = sin día todavía
season-week-of = semana del { $monday }
season-to-have-ready = Para tener a mano
season-new-containers = Envases nuevos, además de los empezados que se nombran arriba; lo que no cabe en uno empezado está contado aquí.
season-week = Semana
season-container = Envase
season-count = Cantidad
slip = Aviso de cambios
slip-about = qué cambió desde los papeles que se hicieron antes
slip-title = Papeles cambiados: { $departure }
slip-take-out = La revisión { $new } reemplaza a la revisión { $old }. Saque los papeles viejos de cada bolsa y tírelos.
slip-places = Lugares
slip-nothing = nada
slip-inside = Lo que está al frente del juego sigue igual; cambió algo adentro.
slip-what = Qué
slip-was = Era
slip-is = Es
shop-the-week-of = la semana del { $monday }
shop-part = { $title }, parte { $number } de { $of }
shop-packets-of = Juegos de hojas: { $what }
shop-how-much =
    { $departures ->
        [one] { $departures } grupo
       *[other] { $departures } grupos
    }: { $sides ->
        [one] { $sides } cara impresa
       *[other] { $sides } caras impresas
    }, cada hoja una vez; con todas las copias, { $leaves ->
        [one] { $leaves } hoja de papel
       *[other] { $leaves } hojas de papel
    }.
shop-how-to-print = Imprima en ambas caras: cada grupo empieza en una hoja propia, con su nombre y cuántas copias lleva de cada hoja.
shop-at-the-end =
    { $sheets ->
        [one] La hoja de devolución está al final, detrás de una lista: se queda en el depósito.
       *[other] Las { $sheets } hojas de devolución están al final, detrás de una lista: se quedan en el depósito.
    }
shop-leaves-on = Sale el
shop-revision = Revisión
shop-sides = Caras
shop-leaves = Hojas con copias
shop-not-known = no se sabe
shop-of-revision = Revisión { $revision }
shop-before-leaving = Resolver antes de salir:
shop-sheet = Hoja
shop-copies = Copias
shop-sheet-at-the-end = { $sheet }, al final
shop-return-sheets = Hojas de devolución: { $what }
shop-returns = Hojas de devolución
shop-tick = Están detrás de esta lista, en su orden. Marque un grupo cuando todo lo de su hoja volvió y está pesado.
shop-back-on = Vuelve el
shop-to-come-back = Debe volver
shop-here = Aquí

## La página para aprender, la hoja de ejercicios

learn-title = Para preparar la prueba: { $trip }
learn-note = Todo lo de aquí queda en este aparato. Ninguna llama sin una persona adulta a su lado.
learn-about = para aprender por cuenta propia, en pantalla
practice-title = Ejercicios
practice-about = cuentas para hacer con lápiz
practice-key-title = Ejercicios: respuestas
practice-key-about = cada cuenta resuelta línea por línea, y qué vale como correcto

## El índice de un juego de hojas

index-way-learners = Hojas para participantes
index-way-staff = Hojas para el equipo: respuestas, planes y registros
index-along = Lo que va con el grupo
index-first = Imprimir primero
index-for-learners = { $title }: para participantes
index-note-learners = Hojas para repartir. Las respuestas las tiene el equipo.
index-for-staff = { $title }: para el equipo
index-note-staff = Respuestas, planes y registros: guarde esta carpeta lejos de participantes.
index-front-page = Portada de este juego de hojas
index-sheets = Las hojas y cómo imprimirlas
index-paper =
    { $leaves ->
        [one] Todo, con las copias indicadas: { $leaves } hoja de papel.
       *[other] Todo, con las copias indicadas: { $leaves } hojas de papel.
    }
index-sides =
    { $pages ->
        [one] { $pages } cara; { $print }
       *[other] { $pages } caras; { $print }
    }
index-older = { $format } (más viejo que la salida como está ahora)
index-link-pdf = PDF, para imprimir
index-link-html = en pantalla
index-link-md = texto
index-link-docx = procesador de textos
