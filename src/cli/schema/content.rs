//! Schemas of what a content keeper writes: modules, places, profiles, sources,
//! menus, the library's own file.

use super::parts::{
    Key, at, block, by_id, extendable, file_by_id, list, meals, number, one_of, origin, say,
    several, text, whole, words,
};
use crate::check;
use crate::nouns::{Kind, Light, Moment, QuestionKind, SegmentKind, Signal, Sum, Washing};
use serde_json::{Value, json};

pub(super) fn library() -> Value {
    extendable(
        vec![
            ("title", at("line")),
            (
                "edition",
                say("the day that every sheet prints", at("date")),
            ),
            ("standing_line", at("line")),
        ],
        vec![],
    )
}

pub(super) fn sources() -> Value {
    file_by_id(extendable(
        vec![
            ("title", at("line")),
            (
                "seen",
                say("the day its own text was looked up, or no", at("seen")),
            ),
        ],
        vec![
            ("publisher", at("line")),
            ("year", at("line")),
            (
                "url",
                json!({"type": "string", "pattern": r"^\s*https?:\/\/\S+\s*$", "maxLength": 1000}),
            ),
            ("note", at("line")),
        ],
    ))
}

pub(super) fn menus() -> Value {
    let mut keys = meals();
    keys.push(("name", at("line")));
    file_by_id(extendable(vec![], keys))
}

pub(super) fn plausible() -> Value {
    let (mut must, mut may) = origin(false);
    must.extend([
        ("say", say("what is measured, a phrase", at("line"))),
        ("because", say("why this is the range", at("line"))),
    ]);
    may.extend([
        ("low", say("below this it is asked about", text(40))),
        ("high", say("above this it is asked about", text(40))),
        ("least", say("below this it is refused", text(40))),
        ("most", say("above this it is refused", text(40))),
        (
            "perhaps",
            say("units that are taken for each other", several(&text(20))),
        ),
    ]);
    file_by_id(extendable(must, may))
}

pub(super) fn place() -> Value {
    extendable(
        vec![
            ("title", at("line")),
            ("summary", text(400)),
            ("rules", at("place_rules")),
        ],
        vec![
            (
                "country",
                say(
                    "ISO 3166-1; with it `language` and `units`",
                    words(&check::countries().collect::<Vec<_>>()),
                ),
            ),
            (
                "language",
                say(
                    "ISO 639-1; what the land manager writes in",
                    several(&words(&check::languages().collect::<Vec<_>>())),
                ),
            ),
            ("units", at("units")),
            ("stale_after", say("days", whole(1, 3650))),
            ("disagreements", at("prose")),
        ],
    )
}

pub(super) fn profile() -> Value {
    extendable(
        vec![("name", at("line"))],
        vec![
            ("phones", several(&at("line"))),
            ("sign_off", several(&at("line"))),
            (
                "mark",
                say("a drawing in SVG beside the profile", at("line")),
            ),
            ("paper", at("paper")),
            ("units", at("units")),
            (
                "language",
                say("the language of its sheets", several(&at("line"))),
            ),
        ],
    )
}

pub(super) fn module() -> Value {
    let moments = Moment::ALL
        .iter()
        .flat_map(|moment| {
            let word = moment.word();
            [word.replace(' ', "_"), word.to_owned()]
        })
        .map(|word| (word, by_id(at("item"))))
        .collect::<serde_json::Map<_, _>>();
    extendable(
        vec![
            ("title", at("line")),
            ("summary", text(300)),
            ("order", say("low ones stand first", whole(0, 100_000))),
            (
                "hazard",
                say("whether the subject can hurt someone", at("yes_no")),
            ),
            ("reviewed", at("date")),
            ("review_by", at("date")),
            ("text", say("what learners read, in Markdown", at("prose"))),
        ],
        vec![
            (
                "sections",
                say(
                    "more of it, each part where it applies",
                    by_id(at("section")),
                ),
            ),
            ("applies", at("applies")),
            ("facts", by_id(at("fact"))),
            ("instructor", at("prose")),
            (
                "story",
                say("invented; opens a lesson on the subject", text(700)),
            ),
            (
                "first_response",
                say("what is done first when it has gone wrong", text(700)),
            ),
            ("cautions", by_id(at("caution"))),
            (
                "checklist",
                json!({
                    "type": "object",
                    "properties": moments,
                    "additionalProperties": false,
                }),
            ),
            ("pack", by_id(at("pack_item"))),
            ("shake_down", by_id(at("item"))),
            ("objectives", by_id(at("objective"))),
            ("questions", by_id(at("question"))),
            ("segments", by_id(at("segment"))),
            ("drawings", by_id(at("drawing"))),
        ],
    )
}

/// What content refers to.
pub(super) fn definition(name: &str) -> Option<Value> {
    Some(match name {
        "applies" => applies(),
        "condition" => block(vec![], conditions()),
        "fact" => fact(),
        "caution" => block(
            vec![
                ("signal", one_of(Signal::ALL, Signal::word)),
                ("hazard", text(260)),
                ("consequence", text(260)),
                ("avoid", text(260)),
            ],
            vec![("respond", text(260)), ("applies", at("applies"))],
        ),
        "item" => block(
            vec![("say", say("what to do, verb first", text(130)))],
            vec![("rank", whole(1, 3)), ("applies", at("applies"))],
        ),
        "pack_item" => block(
            vec![
                ("say", text(80)),
                ("bag", words(&["fire", "cook", "wash", "safety", "repair"])),
            ],
            vec![
                ("a_kitchen", whole(0, 100)),
                ("a_person", whole(0, 100)),
                ("mass", at("mass")),
                ("returns", at("yes_no")),
                ("not_by_air", at("yes_no")),
                ("applies", at("applies")),
            ],
        ),
        "objective" => block(
            vec![("say", text(200)), ("behaviours", several(&text(200)))],
            vec![
                ("critical", at("yes_no")),
                ("levels", several(&at("level"))),
            ],
        ),
        "question" => block(
            vec![
                ("kind", one_of(QuestionKind::ALL, QuestionKind::word)),
                ("objective", at("line")),
                ("ask", text(600)),
                ("because", text(600)),
            ],
            vec![
                ("choices", several(&text(160))),
                ("answer", text(600)),
                (
                    "scene",
                    say("a drawing whose marked places are judged", at("scene")),
                ),
                ("sum", one_of(Sum::ALL, Sum::word)),
                ("applies", at("applies")),
            ],
        ),
        "section" => block(
            vec![("text", at("prose"))],
            vec![("applies", at("applies"))],
        ),
        "segment" => segment(),
        "scene" => block(
            vec![
                ("caption", text(200)),
                ("alt", say("for those who cannot see it", text(800))),
                ("width", number(20.0, 540.0)),
                ("height", number(20.0, 540.0)),
                ("shapes", list(at("shape"))),
                (
                    "places",
                    say("with a letter each", by_id(at("scene_place"))),
                ),
            ],
            vec![],
        ),
        "scene_place" => block(
            vec![
                ("at", at("point")),
                (
                    "say",
                    say("what is there, not whether it is right", text(80)),
                ),
            ],
            vec![("fault", at("yes_no"))],
        ),
        "drawing" => block(
            vec![
                ("caption", text(200)),
                ("alt", say("for those who cannot see it", text(800))),
                ("width", number(20.0, 540.0)),
                ("height", number(20.0, 540.0)),
                ("shapes", list(at("shape"))),
            ],
            vec![("applies", at("applies"))],
        ),
        "shape" => shape(),
        "point" => points(&number(-1000.0, 2000.0), 2, Some(2)),
        _ => return None,
    })
}

fn applies() -> Value {
    let mut any = list(at("condition"));
    any["minItems"] = json!(2);
    let mut keys = conditions();
    keys.push(("any", say("at least one of these holds", any)));
    block(vec![], keys)
}

fn conditions() -> Vec<Key> {
    let several_of = |name: &str| several(&at(name));
    vec![
        ("kind", one_of(Kind::ALL, Kind::word)),
        ("fuel", several_of("fuel_kind")),
        ("stove", several_of("family")),
        ("windscreen", several_of("screen")),
        ("colder_than", at("temperature")),
        ("higher_than", at("length")),
        ("people_from", whole(1, 200)),
        ("youngest_under", whole(1, 110)),
        ("place", several_of("line")),
        ("place_other_than", several_of("line")),
        ("water_from", several_of("water_from")),
        ("arrival", several_of("arrival")),
        ("treatment", several_of("treatment")),
        ("diet", at("yes_no")),
        ("washing", several(&one_of(Washing::ALL, Washing::word))),
        (
            "flame",
            say("whether a stove may be lit at all", at("yes_no")),
        ),
    ]
}

fn fact() -> Value {
    let (mut needed, mut may) = origin(true);
    needed.push(("say", say("in a phrase what the figure is", text(200))));
    may.extend([
        ("value", at("value")),
        ("low", at("value")),
        ("high", at("value")),
        ("text", text(300)),
        ("warming", at("difference")),
        ("rule", say("the rule that overrides it", at("line"))),
        ("disagreement", at("prose")),
    ]);
    let mut fact = block(needed, may);
    fact["oneOf"] = json!([
        {"required": ["value"]},
        {"required": ["low", "high"]},
        {"required": ["text"]},
        {"required": ["warming"]},
    ]);
    fact
}

fn segment() -> Value {
    let mut may: Vec<Key> = vec![
        ("after", several(&at("line"))),
        ("flame", at("yes_no")),
        ("pot", at("yes_no")),
        ("opens_fuel", at("yes_no")),
        ("outdoors_only", at("yes_no")),
        ("light", one_of(Light::ALL, Light::word)),
        ("learners_per_instructor", whole(1, 60)),
        ("required", at("yes_no")),
        ("objectives", several(&at("line"))),
        (
            "kit",
            by_id(block(
                vec![],
                vec![("a_station", whole(0, 100)), ("a_learner", whole(0, 100))],
            )),
        ),
        ("flame_minutes", at("time")),
        ("applies", at("applies")),
    ];
    for key in [
        "set_out",
        "show",
        "sentence",
        "ask",
        "watch_for",
        "stop_if",
        "alone",
    ] {
        may.push((key, at("prose")));
    }
    block(
        vec![
            ("title", at("line")),
            ("kind", one_of(SegmentKind::ALL, SegmentKind::word)),
            ("least", at("time")),
            ("usual", at("time")),
        ],
        may,
    )
}

fn points(item: &Value, least: usize, most: Option<usize>) -> Value {
    let mut points = json!({"type": "array", "items": item, "minItems": least});
    if let Some(most) = most {
        points["maxItems"] = json!(most);
    }
    points
}

/// A line, curve, ellipse or label.
fn shape() -> Value {
    let stroke = || -> Vec<Key> {
        vec![
            ("width", number(0.1, 20.0)),
            ("dashed", at("yes_no")),
            ("fill", words(&["none", "white", "black", "hatched"])),
        ]
    };
    let closing = || {
        let mut keys = stroke();
        keys.push(("closed", at("yes_no")));
        keys
    };
    let four = points(&number(-1000.0, 2000.0), 4, Some(4));
    json!({"anyOf": [
        block(vec![("line", points(&at("point"), 2, None))], closing()),
        block(vec![("curve", points(&at("point"), 4, None))], closing()),
        block(vec![("ellipse", four)], stroke()),
        block(
            vec![("label", at("line")), ("at", at("point"))],
            vec![
                ("anchor", words(&["start", "middle", "end"])),
                ("bold", at("yes_no")),
                ("to", at("point")),
            ],
        ),
    ]})
}
