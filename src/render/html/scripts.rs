//! Scripts in the language of the page.
//!
//! A script writes `WORDS["next-card"]` where it says something. What stands there in the page
//! is the text itself, so that no page carries words, or keys of words, that it does not say.

use crate::diag::{Problem, told};
use crate::doc::Words;

/// How a script begins to ask for words.
const ASKS: &str = "WORDS[\"";
/// How it ends.
const ENDS: &str = "\"]";

/// A script with its words put in; what it asks for and there is not becomes a problem.
pub(super) fn spoken(name: &str, script: &str, words: &Words) -> Result<String, Box<Problem>> {
    let mut out = String::with_capacity(script.len());
    let mut rest = script;
    while let Some((before, after)) = rest.split_once(ASKS) {
        let (key, more) = after.split_once(ENDS).unwrap_or((after, ""));
        let Some(said) = words.all().get(key) else {
            let problem = Problem::error(
                "page.shell",
                told!(
                    "this script asks for words under `{key}`, and there are none",
                    key
                ),
                "ask for a key of `templates/page/words.json`",
            );
            return Err(Box::new(problem.in_file(format!("page/{name}"))));
        };
        out.push_str(before);
        out.push_str(&literal(said));
        rest = more;
    }
    out.push_str(rest);
    Ok(out)
}

/// A text as a script writes it; whatever is in it, it cannot end the script's element.
fn literal(text: &str) -> String {
    serde_json::Value::from(text)
        .to_string()
        .replace('<', "\\u003c")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn words_stand_where_a_script_asks_for_them_and_stay_words() {
        let said = [("next-card", "La \"otra\" </script>")];
        let said = said.map(|(key, words)| (key.to_owned(), words.to_owned()));
        let words = Words::of("es", BTreeMap::from(said));
        assert_eq!(
            spoken("cards.js", "say(WORDS[\"next-card\"], 1);", &words).unwrap(),
            "say(\"La \\\"otra\\\" \\u003c/script>\", 1);"
        );
        let problem = spoken("cards.js", "say(WORDS[\"nxt\"])", &words).unwrap_err();
        assert!(problem.message.contains("`nxt`"), "{problem:?}");
    }
}
