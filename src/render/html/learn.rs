//! The page to learn from: whole without scripts (answers open by a tap), a course with them.

use super::{Page, Shell, fill};
use crate::diag::Outcome;
use crate::doc::learn::{self, Scene, Subject, Sum, Sums, Try, Way};
use crate::doc::{CardFold, Inline, Paper, Style};
use crate::render::figures;
use crate::render::markup::{escaped, push_escaped};
use std::fmt::Write as _;
use std::sync::Arc;

use super::words::Words;

/// The page as HTML.
///
/// # Errors
/// When the shell's template fails on it.
pub fn learn(page: &learn::Page, paper: Paper, shell: &Shell) -> Outcome<Vec<u8>> {
    let mut out = Writer::default();
    out.words.page = Arc::clone(&shell.words);
    out.page(page);
    let style = Style {
        paper,
        body_pt: 12.0,
        caution_pt: 12.0,
        tick_pt: 18.0,
        two_column_ticks: false,
        margin_pt: 40.0,
        most_pages: None,
        still_good_pages: None,
        corner_hole: false,
        drawings_if_room: false,
        cards: None::<CardFold>,
        landscape: false,
    };
    fill(
        shell,
        &Page {
            title: &page.title,
            foot: &page.foot,
            style: &style,
            contents: &[],
            fields: false,
            deck: false,
            kind: "learn",
            main: &out.words.out,
            why: "",
            scripts: &[shell.learn.as_str()],
        },
    )
}

#[derive(Default)]
struct Writer {
    words: Words,
    figures: usize,
    subject: usize,
}

impl Writer {
    fn push(&mut self, markup: &str) {
        self.words.out.push_str(markup);
    }

    fn text(&mut self, words: &str) {
        push_escaped(&mut self.words.out, words);
    }

    /// What the page says by itself.
    fn say(&mut self, key: &str) {
        push_escaped(&mut self.words.out, self.words.page.say(key));
    }

    fn run(&mut self, inlines: &[Inline]) {
        self.words.run(inlines, "");
    }

    fn page(&mut self, page: &learn::Page) {
        self.push("<h1>");
        self.text(&page.title);
        self.push("</h1>\n");
        for note in &page.notes {
            self.push("<p>");
            self.text(note);
            self.push("</p>\n");
        }
        self.push("<p id=\"_told\" role=\"status\"></p>\n<div id=\"_views\"></div>\n");
        self.musts(page);
        for subject in &page.subjects {
            self.subject(subject);
        }
        self.push("<section class=\"sums\" id=\"_sums\"><h2>");
        self.say("sums-heading");
        self.push("</h2>\n<p>");
        self.say("sums-about");
        self.push("</p>\n");
        for sums in &page.sums {
            self.sums(sums);
        }
        self.push("</section>\n");
    }

    /// One screen: what must be known, and what else is checked.
    fn musts(&mut self, page: &learn::Page) {
        self.push("<section id=\"_know\"><h2>");
        self.say("must-know");
        self.push("</h2>\n");
        for must in [true, false] {
            let all: Vec<_> = page
                .subjects
                .iter()
                .flat_map(|subject| &subject.objectives)
                .filter(|one| one.must == must)
                .collect();
            if all.is_empty() {
                continue;
            }
            self.push("<h3>");
            self.say(if must { "must-heading" } else { "and-this" });
            self.push("</h3>\n<ul>\n");
            for one in all {
                self.push(&format!(
                    "<li data-objective=\"{}\" data-must=\"{must}\">",
                    escaped(&one.id)
                ));
                self.run(&one.say);
                self.push("</li>\n");
            }
            self.push("</ul>\n");
        }
        self.push("</section>\n");
    }

    fn subject(&mut self, subject: &Subject) {
        self.subject += 1;
        self.push(&format!(
            "<section class=\"subject\" id=\"_s{}\"><h2>",
            self.subject
        ));
        self.text(&subject.title);
        self.push("</h2>\n<p>");
        self.run(&subject.about);
        self.push("</p>\n");
        for figure in &subject.figures {
            self.figures += 1;
            let svg = figures::svg(figure, &format!("_f{}", self.figures));
            self.push(&format!("<figure>{svg}\n<figcaption>"));
            self.text(&figure.caption);
            self.push("</figcaption></figure>\n");
        }
        if !subject.steps.is_empty() {
            self.push("<h3>");
            self.say("do");
            self.push("</h3>\n<ol>\n");
            for step in &subject.steps {
                self.push("<li>");
                self.run(step);
                self.push("</li>\n");
            }
            self.push("</ol>\n");
        }
        for (signal, words) in &subject.cautions {
            let word = escaped(self.words.page.signal(*signal));
            let class = signal.word().to_lowercase();
            self.push(&format!(
                "<div class=\"caution {class}\"><p class=\"signal\">{word}</p><p>"
            ));
            self.run(words);
            self.push("</p></div>\n");
        }
        self.push("<h3>");
        self.say("try");
        self.push("</h3>\n");
        for one in &subject.tries {
            self.one_try(one);
        }
        self.push("</section>\n");
    }

    fn one_try(&mut self, one: &Try) {
        self.push(&format!(
            "<article class=\"try\" data-try=\"{}\" data-objective=\"{}\" data-way=\"{}\"><h4 class=\"ask\">",
            escaped(&one.id),
            escaped(&one.objective),
            one.way.word()
        ));
        self.run(&one.ask);
        self.push("</h4>\n");
        if let Some(scene) = &one.scene {
            self.scene(scene, one);
        } else if one.way != Way::Words {
            self.push("<ul class=\"choices\">\n");
            for at in mixed(&one.id, one.choices.len()) {
                self.push(&format!("<li data-at=\"{at}\">"));
                self.run(&one.choices[at]);
                self.push("</li>\n");
            }
            self.push("</ul>\n");
        }
        self.push("<details class=\"answer\"><summary>");
        self.say("answer");
        self.push("</summary>\n");
        match one.way {
            Way::Choice => {
                self.push("<p>");
                self.run(one.choices.first().map_or(&[][..], Vec::as_slice));
                self.push("</p>\n");
            }
            Way::Order => {
                self.push("<ol>\n");
                for step in &one.choices {
                    self.push("<li>");
                    self.run(step);
                    self.push("</li>\n");
                }
                self.push("</ol>\n");
            }
            Way::Words | Way::Places => {
                self.push("<p>");
                self.run(&one.answer);
                self.push("</p>\n");
            }
        }
        if !one.because.is_empty() {
            self.push("<p class=\"because\">");
            self.say("because");
            self.push(" ");
            self.run(&one.because);
            self.push("</p>\n");
        }
        self.push("</details></article>\n");
    }

    /// The drawing, and what is at each of its letters.
    fn scene(&mut self, scene: &Scene, one: &Try) {
        self.figures += 1;
        let svg = figures::svg(&scene.figure, &format!("_f{}", self.figures));
        self.push(&format!("<figure class=\"scene\">{svg}</figure>\n"));
        self.push("<ol class=\"choices letters\">\n");
        for (words, (right, down, wrong)) in one.choices.iter().zip(&scene.places) {
            self.push(&format!(
                "<li data-right=\"{:.2}\" data-down=\"{:.2}\" data-fault=\"{wrong}\">",
                right * 100.0,
                down * 100.0
            ));
            self.run(words);
            self.push("</li>\n");
        }
        self.push("</ol>\n");
    }

    fn sums(&mut self, sums: &Sums) {
        self.push("<section class=\"topic\"><h3>");
        self.text(&sums.title);
        self.push("</h3>\n");
        if !sums.numbers.is_empty() {
            self.push("<ul class=\"numbers\">\n");
            for number in &sums.numbers {
                self.push("<li>");
                self.text(number);
                self.push("</li>\n");
            }
            self.push("</ul>\n");
        }
        if let Some((caption, head, rows)) = &sums.table {
            // A group, not a landmark: tables of several sums have the same caption.
            self.push(&format!(
                "<div class=\"scroll\" role=\"group\" tabindex=\"0\" aria-label=\"{}\"><table><caption>",
                escaped(caption)
            ));
            self.text(caption);
            self.push("</caption><thead><tr>");
            for cell in head {
                self.push("<th scope=\"col\">");
                self.text(cell);
                self.push("</th>");
            }
            self.push("</tr></thead><tbody>\n");
            for row in rows {
                self.push("<tr>");
                for cell in row {
                    self.push("<td>");
                    self.text(cell);
                    self.push("</td>");
                }
                self.push("</tr>\n");
            }
            self.push("</tbody></table></div>\n");
        }
        for sum in &sums.problems {
            self.sum(sum);
        }
        self.push("</section>\n");
    }

    fn sum(&mut self, sum: &Sum) {
        let _ = write!(
            self.words.out,
            "<article class=\"sum\" data-least=\"{}\" data-most=\"{}\" data-unit=\"{}\"><h4 class=\"ask\">",
            sum.range.0,
            sum.range.1,
            escaped(&sum.unit)
        );
        self.text(&sum.ask);
        self.push("</h4>\n<details class=\"answer\"><summary>");
        self.say("worked");
        self.push("</summary>\n<ol>\n");
        for (say, how, result) in &sum.steps {
            self.push("<li>");
            self.text(&format!("{say}: {how} = "));
            self.push("<b>");
            self.text(result);
            self.push("</b></li>\n");
        }
        self.push("</ol>\n<p class=\"because\">");
        let answer = format!("{} {}", sum.answer, sum.unit);
        let values = [
            ("answer", answer.trim_end()),
            ("tolerance", sum.tolerance.as_str()),
        ];
        self.text(&self.words.page.put("sum-answer", &values));
        self.push("</p></details></article>\n");
    }
}

/// The order in which choices are shown: another for each question, the same on any day.
fn mixed(id: &str, count: usize) -> Vec<usize> {
    // a 32-bit FNV-1a digest: only to spread, and simple enough to be the same everywhere
    let seed = id.bytes().fold(0x811c_9dc5_u32, |sum, byte| {
        (sum ^ u32::from(byte)).wrapping_mul(0x0100_0193)
    });
    let mut left: Vec<usize> = (0..count).collect();
    let mut order = Vec::with_capacity(count);
    let mut draw = seed;
    while !left.is_empty() {
        draw = draw.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        order.push(left.remove((draw >> 8) as usize % left.len()));
    }
    // steps that already stand in their order would be no question
    if count > 1 && order.iter().enumerate().all(|(at, one)| at == *one) {
        order.rotate_left(1);
    }
    order
}

#[cfg(test)]
mod tests {
    use super::mixed;

    #[test]
    fn choices_are_mixed_and_none_is_lost() {
        let mut first_is_first = 0;
        for number in 0..200 {
            let order = mixed(&format!("greywater.q{number}"), 4);
            let mut sorted = order.clone();
            sorted.sort_unstable();
            assert_eq!(sorted, [0, 1, 2, 3]);
            assert_ne!(order, [0, 1, 2, 3]);
            first_is_first += usize::from(order[0] == 0);
        }
        assert!(
            (20..90).contains(&first_is_first),
            "{first_is_first} of 200"
        );
    }
}
