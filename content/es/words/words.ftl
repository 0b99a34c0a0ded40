# Las palabras de las listas propias del programa, como se imprimen: sustantivo o adjetivo, sin artículo, en minúscula.
# `word-` y la palabra inglesa en minúscula, con guiones, sin comas ni puntos.
# Donde una palabra inglesa está en dos listas con dos sentidos, el segundo lleva el nombre de su lista:
# `word-LISTA-PALABRA`. Están al final.

## Lo que planea el archivo

word-trip = salida
word-lesson = clase

## Comidas y otros usos del combustible

word-supper = cena
word-breakfast = desayuno
word-lunch = almuerzo
word-drinks = bebidas calientes
word-snow = nieve
word-treatment = tratamiento del agua
word-washing = lavado

## Llegada

word-road = por carretera
word-air = en avión
word-boat = en bote
word-foot = a pie

## Papel y medidas

word-letter = carta
word-a4 = A4
word-us = medidas de EE. UU.
word-metric = métricas
word-both = ambas

## Reserva

word-none = ninguno
word-one-extra-day = un día más
word-two-extra-days = dos días más

## Qué cocinillas permite la autoridad del lugar

word-yes = sí
word-with-a-shut-off-valve = con válvula de cierre
word-no = no
word-unknown = no se sabe

## Familias de cocinillas y clases de combustible

word-canister-on-top = quemador sobre cartucho
word-heat-exchanger = olla con intercambiador
word-canister-beside = cartucho aparte con manguera
word-white-gas = bencina blanca
word-kerosene = queroseno
word-alcohol = alcohol
word-tablet = pastillas de combustible
word-canister = cartucho
word-bottle = botella
word-pack = paquete

## Cartuchos: unión, alimentación, cómo rinden

word-thread = rosca
word-clip = clic
word-pierce = perforable
word-vapour = vapor
word-liquid = gas líquido
word-fine = bien
word-slow = lento
word-weak = débil
word-will-not-work = no funciona

## Viento y paravientos

word-calm = calma
word-breezy = brisa
word-windy = ventoso
word-natural = natural
word-partial = parcial
word-full = cerrado
word-built-in = incorporado

## Palabras de señal

word-danger = peligro
word-warning = advertencia
word-caution = precaución
word-notice = aviso

## Momentos del día de una cocina

word-set-up = preparación
word-light = encendido
word-cook = cocinar
word-clean-up = limpieza
word-night = noche
word-leave = partida
word-home = en casa
word-trouble = problemas

## Agua

word-tap = grifo
word-boil = hervor
word-filter = filtro
word-chemical = producto químico
word-uv = UV
word-stream = arroyo

## Lavar y comer

word-wipe-and-rinse = limpiar y enjuagar
word-two-pots = dos ollas
word-three-bowls = tres palanganas
word-three-bowls-with-hot-dip = tres palanganas con baño caliente
word-own-bowls = tazones propios
word-shared-pot = olla común
word-from-the-pouch = bolsa de comida

## De quién es la regla del hervor

word-cdc = CDC (EE. UU.)
word-cdc-travel = CDC (EE. UU.), libro para viajeros
word-epa = EPA (EE. UU.)
word-health-canada = Ministerio de Salud de Canadá
word-who = Organización Mundial de la Salud

## El curso: para quién, sesiones

word-scout = scout
word-adult-beginner = persona adulta que empieza
word-instructor-candidate = aspirante a instruir
word-teach = enseñanza
word-teach-back = enseñanza entre pares
word-check = prueba

## Preguntas y cuentas

word-choice = opciones
word-number = número
word-order = orden
word-short = respuesta breve
word-spot-the-fault = hallar la falla
word-what-now = ¿y ahora qué?
word-boils = hervores
word-spare = reserva
word-steps = pasos
word-bleach = lavandina (cloro, lejía)
word-push = empuje
word-fuel = combustible
word-height = altitud
word-minutes = minutos
word-shelf = estante

## Partes de una clase, luz

word-talk = charla
word-show = demostración
word-say-it = decirlo
word-dry-run-unlit = ensayo en seco
word-do-together = hacerlo en conjunto
word-you-do-it-i-stand-beside = lo hace usted, yo al lado
word-daylight = luz de día
word-dusk = anochecer

## La bolsa de una cocina

word-fire = fuego
word-wash = lavado
word-safety = seguridad
word-repair = reparación

## De dónde sale una cifra

word-published = publicado
word-common-practice = práctica común
word-assumption = supuesto
word-seen = visto
word-seen-mirror = visto en una copia
word-second-hand = de segunda mano
word-derived = deducido
word-memory = de memoria
word-confidence = seguridad pedida

## Normas de un lugar (con punto en el archivo: `greywater.distance`)

word-greywater-distance = agua de lavado, distancia
word-greywater-from = agua de lavado, desde dónde
word-greywater-method = agua de lavado, método
word-soap-use = jabón, uso
word-soap-distance = jabón, distancia
word-food-storage = comida, cómo se guarda
word-fire-stoves = fuego, cocinillas
word-fire-clear = fuego, suelo despejado
word-burying = enterrar restos
word-camp-distance = campamento, distancia
word-fuel-storage = combustible, cómo se guarda

## Lo que se compara con lo usual

word-meal-water = agua de una comida
word-simmer-time = tiempo de hervor suave
word-drinking = agua para beber
word-elevation = altitud
word-day-air = aire en la cena
word-night-air = mínima
word-water = agua
word-heating-value = poder calorífico
word-propane = propano
word-step-length = largo del paso
word-youngest = persona más joven
word-year = año
word-pots-a-person = ollas por persona
word-pot-mass-a-litre = masa de la olla por litro
word-fuel-above-night = combustible más tibio que la noche
word-adults-by-children = adultos junto a menores
word-children-alone = menores sin adulto
word-session-length = largo de la sesión
word-sessions = sesiones
word-fallback-share = parte del plan alternativo

## El estante: qué se hizo con un cartucho, de dónde sale su peso vacío

word-receive = ingreso
word-weigh = pesado
word-reserve = apartado
word-issue = entrega
word-drop = depósito en el camino
word-return = devolución
word-quarantine = cuarentena
word-burn-down = para quemar hasta vaciar
word-retire = baja
word-lost = perdido
word-correct = corrección
word-label = etiqueta
word-scale = balanza
word-table = tabla

## Copias de una hoja

word-one = una
word-one-a-kitchen = una por cocina
word-one-a-learner = una por participante
word-one-a-person = una por persona
word-one-an-instructor = una por instructor
word-one-an-instructor-one-for-a-lesson = una por instructor; una para una clase
word-one-for-two-learners = una cada dos participantes
word-one-for-six-learners = una cada seis participantes
word-shown-not-printed = se muestra, no se imprime

## De qué se trata lo que se supone: la línea del archivo

word-key-water-from = agua de
word-key-water = agua
word-key-water-treatment = tratamiento del agua
word-key-last-meal = última comida
word-key-first-meal = primera comida
word-key-boil-rules = reglas del hervor
word-key-eating = cómo se come
word-key-washing = lavado
word-key-spare = reserva
word-key-confidence = seguridad pedida
word-key-units = medidas
word-key-menu = menú
word-key-place = lugar
word-key-day = aire en la cena
word-key-night = mínima de la noche
word-key-wind = viento
word-key-drinking = agua para beber
word-key-lid = tapa
word-key-windscreen = paravientos
word-key-pots = ollas
word-key-blend = mezcla
word-key-connection = unión
word-key-people = personas
word-key-instructors = instructores
word-key-adults-per-lit-stove = adultos por cocinilla encendida
word-key-step-length = largo del paso
word-key-kitchens = cocinas
word-key-stations = puestos
word-key-course = curso
word-key-level = nivel
word-key-minutes = minutos
word-key-starts = comienzo
word-key-fallback = plan alternativo
word-key-focus = temas
word-key-canisters-on-hand = cartuchos a mano
word-key-measured = medido
word-key-sessions = sesiones
word-key-camps = campamentos
word-key-known = ya sabido

## Lo que se supone, y los gases de un cartucho

word-cold = frío
word-outdoors = al aire libre
word-indoors = bajo techo
word-isobutane = isobutano
word-n-butane = n-butano

## La misma palabra inglesa en otra lista, con otro sentido

# familia de cocinillas (arriba está el combustible)
word-family-white-gas = cocinilla de bencina blanca
word-family-kerosene = cocinilla de queroseno
word-family-alcohol = quemador de alcohol
word-family-tablet = soporte para pastillas
# clase de combustible (arriba está el recipiente)
word-fuel-canister = gas de cartucho
# momento del día (arriba está el recipiente)
word-moment-pack = equipaje
# parte de la bolsa (arriba está el momento)
word-bag-cook = cocina
# reserva (arriba está el paravientos)
word-spare-none = ninguna
# distancia de una norma
word-distance-none = ninguna

## Numbers

decimal-mark = ,
