//! Finds the tags of a template and cuts them into tokens, as far as the proof
//! needs: names, signs, texts, each with its place.

/// A piece of a tag.
#[derive(Clone, Debug, PartialEq)]
pub enum Token {
    /// A name, dots included: `trip.title`.
    Name(String, usize),
    /// A text in quotes.
    Text(String, usize),
    /// Any other sign.
    Sign(char, usize),
}

/// What stands between `{{ }}` or `{% %}`.
#[derive(Clone, Debug, PartialEq)]
pub struct Tag {
    /// Whether it prints (`{{`).
    pub prints: bool,
    /// Where it opens, in bytes.
    pub at: usize,
    /// Its tokens.
    pub tokens: Vec<Token>,
}

impl Tag {
    /// The first word of a `{% %}` tag.
    #[must_use]
    pub fn word(&self) -> Option<&str> {
        match (self.prints, self.tokens.first()) {
            (false, Some(Token::Name(name, _))) => Some(name),
            _ => None,
        }
    }
}

/// The tags of a template, in order; comments are left out.
#[must_use]
pub fn tags(text: &str) -> Vec<Tag> {
    let mut tags = Vec::new();
    let mut at = 0;
    while let Some(offset) = text[at..].find('{') {
        let open = at + offset;
        let rest = &text[open..];
        if rest.starts_with("{#") {
            at = rest.find("#}").map_or(text.len(), |end| open + end + 2);
        } else if rest.starts_with("{{") || rest.starts_with("{%") {
            let (tokens, end) = tokens(text, open + 2, rest.starts_with("{{"));
            tags.push(Tag {
                prints: rest.starts_with("{{"),
                at: open,
                tokens,
            });
            at = end;
        } else {
            at = open + 1;
        }
    }
    tags
}

/// Tokens up to the tag's end, and where that is.
fn tokens(text: &str, from: usize, prints: bool) -> (Vec<Token>, usize) {
    let close = if prints { "}}" } else { "%}" };
    let mut found = Vec::new();
    let mut at = from;
    // Inside a component's `{..}` argument a closing brace is not the tag's end.
    let mut braces = 0;
    if text[at..].starts_with('-') {
        at += 1;
    }
    while at < text.len() {
        let rest = &text[at..];
        if braces == 0
            && (rest.starts_with(close)
                || rest
                    .strip_prefix('-')
                    .is_some_and(|rest| rest.starts_with(close)))
        {
            let width = close.len() + usize::from(rest.starts_with('-'));
            return (found, at + width);
        }
        let Some(sign) = rest.chars().next() else {
            break;
        };
        if sign.is_alphabetic() || sign == '_' {
            let end = rest
                .find(|c: char| !(c.is_alphanumeric() || c == '_' || c == '.' || c == '?'))
                .unwrap_or(rest.len());
            let name = rest[..end].trim_end_matches('.').replace('?', "");
            found.push(Token::Name(name, at));
            at += end;
        } else if matches!(sign, '"' | '\'' | '`') {
            let inside = &rest[1..];
            let end = inside.find(sign).unwrap_or(inside.len());
            found.push(Token::Text(inside[..end].to_owned(), at));
            at += end + 2;
        } else {
            match sign {
                '{' => braces += 1,
                '}' => braces -= 1,
                _ => {}
            }
            if !sign.is_whitespace() && !sign.is_ascii_digit() {
                found.push(Token::Sign(sign, at));
            }
            at += sign.len_utf8();
        }
    }
    (found, text.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_tags_and_tokens() {
        let found = tags("a {{ x.y }} {# {{ no }} #} {%- if not a.b -%} {{ <prose of={c.d} /> }}");
        assert_eq!(found.len(), 3);
        assert_eq!(found[0].tokens, vec![Token::Name("x.y".to_owned(), 5)]);
        assert_eq!(found[1].word(), Some("if"));
        assert!(matches!(&found[2].tokens[1], Token::Name(name, _) if name == "prose"));
        assert!(matches!(&found[2].tokens[5], Token::Name(name, _) if name == "c.d"));
    }
}
