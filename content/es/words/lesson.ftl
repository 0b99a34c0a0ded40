# Las palabras de una clase: su plan, los papeles alrededor, la prueba práctica, las tarjetas, los ejercicios.

## El encabezado del plan

lesson-length = { $minutes } (comienzo: { $hour })
lesson-sessions =
    { $sessions ->
        [one] { $sessions } sesión
       *[other] { $sessions } sesiones
    }, { $minutes } en total
lesson-nothing-lit = no se enciende nada
lesson-go = viento de menos de { $wind } junto a la cocinilla, norma de fuego conocida, agua y botiquín para quemaduras a mano, { $adults }
lesson-go-adults = un adulto en cada llama
lesson-go-one-free = un adulto en cada llama, y otro sin ninguna mientras alguien esté lejos de ella
lesson-go-cold = tiempo, lugar y personas como se planeó
lesson-height = A { $height } el agua hierve a { $boils }: la comida tarda más en cocerse.
lesson-in-hand = con { $minutes } de margen
lesson-most-lit =
    { $lit ->
        [1] como máximo una encendida a la vez, el resto en frío
        [2] como máximo dos encendidas a la vez, el resto en frío
        [3] como máximo tres encendidas a la vez, el resto en frío
        [4] como máximo cuatro encendidas a la vez, el resto en frío
       *[other] como máximo { $lit } encendidas a la vez, el resto en frío
    }
lesson-adults =
    { $adults ->
        [one] { $adults } adulto junto a cada cocinilla encendida; { $most }
       *[other] { $adults } adultos junto a cada cocinilla encendida; { $most }
    }

## El plan alternativo

lesson-indoors = { $minutes }, bajo techo, sin encender nada
lesson-nothing-new = nada nuevo: cálculo del combustible, preguntas de las tarjetas
lesson-nothing-new-cards = nada nuevo: preguntas de las tarjetas
lesson-fallback-runs = va de { $from } a { $to }
lesson-fallback-latest = va de { $from } a { $to }. Si se para más tarde: todo apagado y frío; límite para empezarlo { $latest }, final { $end }

## La ficha de una parte

lesson-fallback = Plan alternativo
lesson-beside-flame = al lado de la llama, por turnos
lesson-while-resting = mientras los quemadores se enfrían
lesson-while-others = mientras otros tienen su turno
lesson-from-card = con su ficha
lesson-a-round = { $minutes } por ronda, { $rounds } rondas
lesson-flame-on = CON LLAMA
lesson-kit-each = { $what }, { $count } por participante
lesson-kit-both = { $stations } × { $what } y { $count } por participante

## Qué enciende una sesión, y quién espera

lesson-flames =
    Con llama: { $stations }, { $lit ->
        [1] una por vez
        [2] como máximo dos a la vez
        [3] como máximo tres a la vez
        [4] como máximo cuatro a la vez
       *[other] como máximo { $lit } a la vez
    }; { $turns }; { $free }
lesson-nobody-away = en ese rato nadie está lejos de la llama
lesson-adults-free =
    { $free ->
        [one] { $free } adulto sin cocinilla
       *[other] { $free } adultos sin cocinilla
    }
lesson-flames-each = cada participante enciende una vez
lesson-flames-watched = un adulto enciende y los participantes miran
lesson-cold-indoors = No se enciende nada: es bajo techo, y no entra combustible
lesson-cold-adult = No se enciende nada: ningún adulto quedaría libre para quienes esperan. Con un adulto más se enciende una cocinilla
lesson-cold-waits = No se enciende nada: alguien esperaría más de { $most }. Alcanzaría con otro adulto y otra cocinilla
lesson-cold-because = No se enciende nada: { $why }
lesson-cold-no-need = No se enciende nada: sus temas no piden llama
lesson-cold-no-room = No se enciende nada: no cabe en los minutos. Con { $minutes } más cabría una llama con todo lo que necesita
lesson-waits-none = En cada fila hay algo que hacer para cada participante.
lesson-waits = Nadie espera más de { $minutes }, sumadas todas las filas; el límite es { $limit }.
lesson-others-more = y { $count } más

## Filas del horario: qué y cómo

clock-recall = ¿Qué sabemos todavía?
clock-drill = Simulacro "¡Apaguen todo!"
clock-together-unlit = hacerlo en conjunto, sin llama
clock-all-off = Llamado "¡Apaguen todo!" con llamas encendidas
clock-all-off-call = "¡Apaguen todo!"
clock-cooling = Todo frío antes de guardarlo
clock-break = Pausa
clock-nothing-lit = nada encendido
clock-hand-out = Papeles, grupos, se hace o no se hace
clock-all-together = todo el grupo junto
clock-side-by-side = en paralelo
clock-worksheet = Cálculo del combustible
clock-each-alone = cada cual por su cuenta
clock-form = Prueba: forma escrita
session-unnamed = Sesión { $number }
clock-burners-rest = Cocinillas en reposo
clock-check = Prueba
clock-check-of = Prueba: { $title }
clock-check-unlit = Prueba: lo que se observa, sin llama
clock-clear-up = Ordenar y contar
clock-teaches = { $kind }; enseña { $who }
clock-rounds = { $kind }; { $rounds } rondas

## Filas del horario: dónde y quién

clock-at-one =
    en { $stations }, hasta { $most ->
        [one] { $most } participante
       *[other] { $most } participantes
    }
clock-at-each =
    en { $stations }, en cada puesto hasta { $most ->
        [one] { $most } participante
       *[other] { $most } participantes
    }
clock-at-some =
    { $lit } de { $stations }, en cada puesto hasta { $most ->
        [one] { $most } participante
       *[other] { $most } participantes
    }
clock-begins-at = { $who } en { $place }
clock-then-on = { $places }; después, al lugar siguiente
clock-in-turns = por turnos
clock-in-turns-at = por turnos en { $station }
clock-all-at = todo el grupo en { $station }
clock-in-parts =
    { $parts ->
        [2] en dos partes, un adulto con cada una
        [3] en tres partes, un adulto con cada una
        [4] en cuatro partes, un adulto con cada una
       *[other] en { $parts } partes, un adulto con cada una
    }
clock-second-burner = { $station }, segundo quemador
clock-bench = mesa { $number }
clock-behind-line = detrás de la línea
clock-free =
    { $free ->
        [one] { $free } libre
       *[other] { $free } libres
    }
clock-adults-there =
    { $adults ->
        [1] el adulto está en ella
        [2] los dos adultos están en ella
       *[other] todos los adultos están en ella
    }
clock-burns = arde { $burns } de { $minutes }
clock-go = viento de menos de { $wind }
clock-adult-here = { $does } (adulto)
clock-keep = queda
# un espacio que no se corta: la columna es angosta
clock-drop = saque { $place }
clock-drop-rounds = saque { $place }, primero las últimas rondas

## Qué hace quien no está junto a la llama

clock-does-listen = detrás de la línea, escuchando
clock-does-part = su parte
clock-does-rehearse = ensayo del próximo turno, sin llama
clock-does-worksheet = cálculo del combustible
clock-does-cards = tarjetas de estudio, de a dos
clock-does-cards-alone = tarjetas de estudio, a solas
clock-does-form = forma escrita

## Qué se cubre

cover-not-yet = todavía no
cover-written = por escrito
cover-station = se observa
cover-questions =
    { $count ->
        [one] { $count } pregunta
       *[other] { $count } preguntas
    }
cover-critical = obligatorio
cover-known = { $say } (ya lo traen)
cover-marked = { $say } (**obligatorio**)
cover-known-marked = { $say } (ya lo traen) (**obligatorio**)

## Qué se lleva

kit-water =
    { $water } de agua en { $places ->
        [one] { $places } lugar con llama
       *[other] { $places } lugares con llama
    }, en baldes abiertos
kit-burn-kits =
    { $count ->
        [one] { $count } botiquín para quemaduras
       *[other] { $count } botiquines para quemaduras
    }, uno en cada lugar con llama
kit-cold-down =
    { $count ->
        [one] { $count } lugar marcado para que se enfríen cosas calientes
       *[other] { $count } lugares marcados para que se enfríen cosas calientes
    }
kit-hair-ties =
    { $count ->
        [one] { $count } liga para el pelo
       *[other] { $count } ligas para el pelo
    }
kit-lighters =
    { $count ->
        [one] { $count } encendedor
       *[other] { $count } encendedores
    }, uno en el bolsillo del adulto de cada lugar con llama
kit-burns = { $minutes }, { $times } × encendido
kit-left = { $tag } (resto: { $left })
kit-menu = taza, y lo que va en ella ({ $meal })
kit-of-menu = de eso, { $menu } hierven el agua del menú

## El menú en el horario

clock-menu-boiled = { $title }; su agua es para: { $meals }
clock-menu-drunk = { $title }; se reparte: { $meals }
clock-menu-water = agua para: { $meals }
menu-made = { $station }: { $water } para { $people } personas ({ $meal }), un hervor en cada uno de estos turnos de "{ $segment }": { $times }.
menu-handed-round = Para eso, agua potable y ollas limpias; un adulto levanta y sirve, con la llama apagada y los recipientes en el suelo. Se reparte desde las { $from }, todo apagado.
menu-short =
    { $station }: en este horario no hay { $meal }: lleva { $boils ->
        [one] un hervor
       *[other] { $boils } hervores
    } de { $each } y { $turns ->
        [one] hay una llama
       *[other] hay { $turns } llamas
    } de { $burns } con una olla. Su combustible se entrega: hierva el agua después de la lección, o escriba "menu: cold" en su archivo.
menu-never = { $stations }: no hay { $meals }: aquí su agua no hierve nunca.
menu-no-pot = { $stations }: en este horario no hay { $meals }: ninguna llama de allí tiene una olla. Su combustible se entrega: hierva el agua después de la lección, o escriba "menu: cold" en su archivo.
menu-nothing-lit = No hay { $meals }: no se enciende nada, y su combustible no está en ninguna lista.

## Papeles alrededor de una clase

papers-hours = de { $from } a { $to }
papers-adult-beside =
    { $lit ->
        [1] Un adulto junto a cada llama; como máximo una encendida a la vez
        [2] Un adulto junto a cada llama; como máximo dos encendidas a la vez
        [3] Un adulto junto a cada llama; como máximo tres encendidas a la vez
        [4] Un adulto junto a cada llama; como máximo cuatro encendidas a la vez
       *[other] Un adulto junto a cada llama; como máximo { $lit } encendidas a la vez
    }
papers-adult-more = Un adulto más, sin cocinilla, mientras alguien espera
papers-nobody-waits = Quien está ahí está junto a la llama, con el adulto al lado; nadie espera en otro lugar
papers-unlit-first = Cada paso se dice y se hace primero sin encender nada; el simulacro "¡Apaguen todo!" va antes de la primera llama
papers-lone-adult = Un solo adulto: antes de la primera llama, dos participantes saben decir a quién llamar y dónde están. Si el adulto se lastima: todo apagado, paso atrás, llamar
papers-cold-again = Un quemador de combustible líquido o de alcohol se vuelve a encender solo cuando está frío y revisado
papers-water-at-hand = Agua en baldes abiertos y un botiquín para quemaduras en cada lugar con llama; un solo lugar para las cosas calientes
papers-go-or-not = Se hace o no se hace, antes de la primera llama: viento, norma de fuego, agua, adultos
papers-nothing-lit = No se enciende nada, y el combustible que haya queda cerrado
papers-bad-weather = Mal tiempo: un plan más corto bajo techo, sin llama ni combustible
papers-diet = La comida nombrada arriba no se lleva; el plan y los medicamentos están a cargo de un adulto designado
papers-bucket = balde grande con agua
papers-burn-kit = botiquín para quemaduras
papers-hot-place = lugar marcado para cosas calientes
papers-hair-tie = liga para el pelo
papers-lighter = encendedor
papers-food = comida y bebida del menú, para una persona
papers-water = agua para los baldes
papers-screen = paravientos de la cocinilla
papers-board = lápiz y algo en que apoyarse para escribir
papers-calculator = calculadora, una para cada dos

## Diapositivas

slide-stoves-lit = Hoy se encienden cocinillas. Hay un adulto al lado de cada una.
slide-nothing-lit = Hoy no se enciende nada.
slide-recall = Dígalo de memoria; después mire.
slide-all-off = ¡Apaguen todo!
slide-all-off-do = Apague. Dé un paso atrás. Manos abajo.
slide-go-on = Seguimos: { $hour }.
slide-worksheet = Su cálculo del combustible
slide-worksheet-until = Solo lápiz. Termina: { $hour }.
slide-form = Su forma escrita
slide-form-alone = A solas, sin apuntes.
slide-show = Muéstrelo
slide-show-tick = Una persona muestra, otra marca.
slide-look = Mire
slide-your-turn = Su turno: { $title }

## La prueba práctica

check-form = { $title }, forma { $letter }
check-form-about = preguntas en una hoja; todas las formas tienen el mismo plan
check-form-print = las dos caras de una hoja
check-copies-first = uno de cada dos participantes
check-copies-neighbours = quienes se sientan al lado
check-copies-again = una por cada persona que lo intenta de nuevo
check-grid = { $title }, lo que se observa
check-grid-about = lo que se observa junto a la cocinilla, un cuadro para seis personas
check-grid-copies = una
check-grid-one-side = una cara para seis personas
check-grid-both-sides = las dos caras de una hoja para seis personas
check-holds = 12 meses, o hasta la próxima salida en otra época
check-each =
    { $count ->
        [0] ninguna
        [1] una
        [2] dos
        [3] tres
        [4] cuatro
       *[other] { $count }
    }
check-blueprint =
    { $questions ->
        [one] { $questions } pregunta
       *[other] { $questions } preguntas
    }: { $each } por cada cosa que se prueba{ $sums ->
        [0] {""}
        [one] , y { $sums } cuenta
       *[other] , y { $sums } cuentas
    }

## Tarjetas de estudio

cards-hurt = Qué puede lastimar
cards-first = Qué hacer primero
cards-wrong-here = Qué está mal aquí
cards-know = Qué hay que saber
cards-looked-for = Qué mira quien evalúa
card-hurt = { $subject }: ¿qué puede lastimarle, y qué hace usted?
card-happened = { $subject }: alguien se lastimó o está en peligro por eso. ¿Qué hace usted primero?
card-look-for = Alguien va a { $say }. ¿En qué se fija usted?

## Ejercicios

practice-all-topics = todos los temas
practice-given = dato

## Lo que quizá ya saben

known-words = lo dice
known-choice = elige lo correcto
known-order = ordena los pasos
known-places = señala la falla
known-not-asked = allí no se pregunta
known-said-is-enough = alcanza con decirlo
known-acts =
    { $acts ->
        [one] un acto a ver
       *[other] { $acts } actos a ver
    }
