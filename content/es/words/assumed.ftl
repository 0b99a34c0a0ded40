# Lo que se supone porque el archivo no lo dice: el valor, y por qué ese.

assumed-value = { $value }
assumed-percent = { $percent } %
blend-gas = { $gas } { $percent }
blend-gases = { $some }, { $more }

assumed-not-stated = no se indica
assumed-none-stated = no se indica ninguno
assumed-no-menu = no se indica menú
assumed-nothing-lit = no se puede encender ninguna cocinilla, así que toda comida es fría
assumed-lesson-water = en una clase se bebe lo que se trae
assumed-first-elevation = las medidas de la primera altitud
assumed-count-steps = cuente sus pasos en un largo conocido
assumed-lives-on-snow = un campamento vive de nieve derretida
assumed-age-not-stated = no se indica la edad menor, así que puede haber alguien de menos de 16 años
assumed-someone-under-16 = alguien tiene menos de 16 años
assumed-nobody-under-16 = nadie tiene menos de 16 años
assumed-a-person-and-day = por persona y día
assumed-a-person-and-day-from-snow = por persona y día donde el agua sale de nieve
assumed-summer-air = aire de verano a esta altitud
assumed-below-day = { $kelvins } K por debajo del día
assumed-snow-as-night = nieve tan fría como la noche
assumed-midway = a medio camino entre el día y la noche
assumed-ask-land-manager = no se indica; pregunte a la autoridad del lugar qué normas rigen
assumed-lid-saves-fuel = una tapa ahorra combustible; escriba `lid: no` si no hay
assumed-most-a-kitchen =
    { $people ->
        [one] de una cocina come a lo sumo { $people } persona
       *[other] de una cocina comen a lo sumo { $people } personas
    }
assumed-shared-out = el grupo, repartido en partes iguales
assumed-new-canisters = no se indica la mezcla de los cartuchos nuevos; con frío, esto es lo prudente
assumed-cautious-in-cold = no se indica; con frío, esto es lo prudente
assumed-calm-trial = no se indica el viento de la prueba; calma es lo prudente
assumed-comes-with = lo que viene con la cocinilla `{ $stove }`
assumed-small-pot = una chica hierve en un turno en la cocinilla
assumed-carries-safely = no más de lo que `{ $stove }` sostiene con seguridad
assumed-pot-a-person = { $litres } L de olla por persona
assumed-one-a-kitchen = uno por cocina
assumed-plainest-words = las palabras más sencillas
assumed-bad-weather = mal tiempo: no se enciende nada
assumed-stands-for = lo que `{ $part }` significa
