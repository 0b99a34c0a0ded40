// Makes a course of the page: questions that answer at once, what was wrong comes back, sums
// with hints, a check to try. Nothing leaves this device. Without it everything stands on the
// page, and answers open by a tap.
(function () {
  "use strict";
  var main = document.getElementById("_main");
  var key = document.body.getAttribute("data-key") + "-learn";
  var DAY = 86400000;
  function all(selector, root) { return Array.prototype.slice.call((root || main).querySelectorAll(selector)); }
  function make(name, words, more) {
    var element = document.createElement(name);
    if (words) element.textContent = words;
    Object.keys(more || {}).forEach(function (one) { element.setAttribute(one, more[one]); });
    return element;
  }
  function button(words, act, more) {
    var one = make("button", words, more);
    one.type = "button";
    one.addEventListener("click", act);
    return one;
  }
  function today() { return Math.floor(Date.now() / DAY); }
  var told = document.getElementById("_told");
  function tell(words) { told.textContent = words; }
  // WORDS[..] are put in by the program, in the language of the page; values stand in braces there
  function put(text, values) { return text.replace(/\{(\w+)\}/g, function (all, name) { return values[name]; }); }

  // ---- what is kept: for each question its box (0 never asked, 1 wrong, up to 5) and when it is due
  var tries = all(".try");
  var ids = tries.map(function (one) { return one.getAttribute("data-try"); });
  var objectives = all("#_know [data-objective]");
  var state = { boxes: {}, due: {}, check: null, solved: {}, mocks: 0, half: null };
  var storage = true;
  try {
    var kept = JSON.parse(window.localStorage.getItem(key) || "null");
    if (kept && typeof kept === "object") {
      ids.forEach(function (id) {
        var box = kept.boxes && kept.boxes[id];
        if (box >= 1 && box <= 5) { state.boxes[id] = box | 0; state.due[id] = (kept.due && kept.due[id]) | 0; }
      });
      if (kept.check > 0) state.check = kept.check | 0;
      if (kept.solved && typeof kept.solved === "object") state.solved = kept.solved;
      if (kept.mocks > 0) state.mocks = kept.mocks | 0;
      if (isHalf(kept.half)) state.half = kept.half;
    }
    window.localStorage.setItem(key + "-probe", "1");
    window.localStorage.removeItem(key + "-probe");
  } catch (error) { storage = false; }
  /** A check that was left before its end: whose questions this page still has. */
  function isHalf(half) {
    return !!half && Array.isArray(half.picked) && Array.isArray(half.wrong) && Array.isArray(half.written) &&
      half.picked.length > 0 && half.at >= 0 && half.at <= half.picked.length &&
      half.picked.concat(half.wrong, half.written.map(function (one) { return one && one.id; })).every(function (id) { return ids.indexOf(id) >= 0; });
  }
  function keep() {
    if (!storage) return;
    try { window.localStorage.setItem(key, JSON.stringify(state)); }
    catch (error) { storage = false; tell(WORDS["keeps-nothing"]); }
  }

  // Leitner's boxes: box n comes back after 2 to the power n-1 days, and never later than half of
  // the days that are left to the check.
  function wait(box) {
    var days = Math.pow(2, box - 1);
    if (state.check) days = Math.min(days, Math.max(1, Math.floor((state.check - today()) / 2)));
    return days;
  }
  function answered(id, right) {
    var box = right ? Math.min(5, (state.boxes[id] || 0) + (state.boxes[id] ? 1 : 2)) : 1;
    state.boxes[id] = box;
    state.due[id] = right ? today() + wait(box) : today();
    keep();
    progress();
  }
  function known(id) { return (state.boxes[id] || 0) >= 2; }
  function of(objective) { return tries.filter(function (one) { return one.getAttribute("data-objective") === objective; }); }
  function progress() {
    var musts = 0, mustsKnown = 0, rest = 0, restKnown = 0;
    objectives.forEach(function (line) {
      var here = of(line.getAttribute("data-objective"));
      var done = here.filter(function (one) { return known(one.getAttribute("data-try")); }).length;
      var full = here.length > 0 && done === here.length;
      var mark = line.querySelector(".mark") || line.appendChild(make("span", "", { "class": "mark" }));
      mark.textContent = here.length === 0 ? " " + WORDS["watched"] : full ? " \u2713 " + WORDS["known"] : " " + put(WORDS["done-of"], { n: done, of: here.length });
      if (here.length === 0) return;
      if (line.getAttribute("data-must") === "true") { musts += 1; mustsKnown += full ? 1 : 0; }
      else { rest += 1; restKnown += full ? 1 : 0; }
    });
    where.textContent = put(WORDS["musts-known"], { n: mustsKnown, of: musts, others: restKnown, rest: rest });
    var due = dueNow().length;
    testButton.textContent = due ? put(WORDS["test-me-due"], { n: due }) : WORDS["test-me"];
  }
  function isMust(one) {
    var line = objectives.filter(function (line) { return line.getAttribute("data-objective") === one.getAttribute("data-objective"); })[0];
    return !!line && line.getAttribute("data-must") === "true";
  }
  function dueNow() {
    return tries.filter(function (one) {
      var id = one.getAttribute("data-try");
      return !state.boxes[id] || state.due[id] <= today();
    }).sort(function (a, b) {
      // musts first, then what was wrong, then what was never asked
      function rank(one) { return (isMust(one) ? 0 : 10) + (state.boxes[one.getAttribute("data-try")] === 1 ? 0 : 1); }
      return rank(a) - rank(b);
    });
  }

  // ---- a question that answers
  function words(element) { return element.textContent.trim(); }
  function reason(article) {
    var box = make("div", "", { "class": "feedback" });
    all(".answer > :not(summary)", article).forEach(function (part) { box.appendChild(part.cloneNode(true)); });
    return box;
  }
  /** How far from its place each letter lies, in pixels of a phone: clear of every place and letter. */
  var OFF = 36, PHONE = 320, EDGE = 15;
  function besides(points, svg) {
    var box = (svg.getAttribute("viewBox") || "0 0 2 1").split(/\s+/).map(Number);
    var high = PHONE * box[3] / box[2], discs = [];
    var places = points.map(function (one) { return [one[0] * PHONE / 100, one[1] * high / 100]; });
    return places.map(function (here, at) {
      var best = null;
      for (var turn = 0; turn < 16; turn += 1) {
        var by = [Math.round(OFF * Math.cos(turn * Math.PI / 8)), Math.round(OFF * Math.sin(turn * Math.PI / 8))];
        var there = [here[0] + by[0], here[1] + by[1]];
        var over = Math.max(0, EDGE - there[0], there[0] - PHONE + EDGE) + Math.max(0, EDGE - there[1], there[1] - high + EDGE);
        var near = places.filter(function (_, other) { return other !== at; }).concat(discs).map(function (one) { return Math.hypot(one[0] - there[0], one[1] - there[1]); });
        var room = Math.min.apply(null, near.concat(OFF * 2)) - over * 4;
        if (!best || room > best.room + 1e-9) best = { room: room, by: by, there: there };
      }
      discs.push(best.there);
      return best.by;
    });
  }
  var serial = 0;
  function ask(article, place, done, silent) {
    serial += 1;
    var way = article.getAttribute("data-way");
    var form = make("form", "", { "class": "asking" });
    var field = make("fieldset");
    var legend = make("legend");
    legend.innerHTML = article.querySelector(".ask").innerHTML;
    field.appendChild(legend);
    form.appendChild(field);
    var live = make("div", "", { "role": "status", "class": "verdict" });
    var act = make("div", "", { "class": "acts" });
    function finish(right, own) {
      if (!silent) {
        live.textContent = "";
        live.appendChild(make("p", right ? WORDS["right"] : WORDS["not-yet"], { "class": "word" }));
        if (!right && own) live.appendChild(make("p", put(WORDS["you-chose"], { name: own })));
        live.appendChild(reason(article));
      }
      all("input, .move", form).forEach(function (one) { one.disabled = true; });
      act.textContent = "";
      if (silent) { done(right); return; }
      var on = button(WORDS["go-on"], function () { done(right); });
      act.appendChild(on);
      on.focus();
    }
    if (way === "choice") {
      all(".choices li", article).forEach(function (choice, at) {
        var label = make("label", "", { "class": "row" });
        var radio = make("input", "", { type: "radio", name: "_q" + serial, value: choice.getAttribute("data-at"), required: "" });
        if (at === 0) radio.setAttribute("data-first", "");
        var span = make("span"); span.innerHTML = choice.innerHTML;
        label.appendChild(radio); label.appendChild(span);
        field.appendChild(label);
      });
      act.appendChild(make("button", WORDS["check"], { type: "submit" }));
      form.addEventListener("submit", function (event) {
        event.preventDefault();
        var chosen = form.querySelector("input:checked");
        if (!chosen) { live.textContent = WORDS["choose-first"]; return; }
        finish(chosen.value === "0", words(chosen.parentNode));
      });
    } else if (way === "order") {
      var list = make("ol", "", { "class": "order" });
      all(".choices li", article).forEach(function (step) {
        var line = make("li", "", { "data-at": step.getAttribute("data-at") });
        var span = make("span"); span.innerHTML = step.innerHTML;
        line.appendChild(span);
        [[WORDS["up"], -1], [WORDS["down"], 1]].forEach(function (pair) {
          line.appendChild(button(pair[0], function (event) {
            var other = pair[1] < 0 ? line.previousElementSibling : line.nextElementSibling;
            if (!other) return;
            list.insertBefore(pair[1] < 0 ? line : other, pair[1] < 0 ? other : line);
            live.textContent = put(WORDS["now-step"], { name: words(span), n: Array.prototype.indexOf.call(list.children, line) + 1 });
            event.currentTarget.focus();
          }, { "class": "move", "aria-label": pair[0] + ": " + words(step) }));
        });
        list.appendChild(line);
      });
      field.appendChild(list);
      act.appendChild(make("button", WORDS["check"], { type: "submit" }));
      form.addEventListener("submit", function (event) {
        event.preventDefault();
        var right = true;
        Array.prototype.forEach.call(list.children, function (line, at) {
          var place = Number(line.getAttribute("data-at"));
          if (place === at) return;
          right = false;
          if (!silent) line.insertBefore(make("b", put(WORDS["belongs-at"], { n: place + 1 })), line.children[1]);
        });
        finish(right);
      });
    } else if (way === "places") {
      var picture = article.querySelector(".scene").cloneNode(true);
      picture.hidden = false;
      // an id that stood twice in the page would name the wrong drawing
      picture.innerHTML = picture.innerHTML.replace(/\b_f\d+([tdh])\b/g, "_q" + serial + "$1");
      // the letters printed on the drawing hide what they stand on: here they lie beside it, on a line
      var points = all(".choices li", article).map(function (line) { return [Number(line.getAttribute("data-right")), Number(line.getAttribute("data-down"))]; });
      all("text", picture).filter(function (one) { return /^[A-Z]$/.test(one.textContent) && one.getAttribute("font-weight") === "700"; }).slice(-points.length).forEach(function (one) {
        var disc = one.previousElementSibling;
        if (disc && disc.tagName === "ellipse") disc.parentNode.removeChild(disc);
        one.parentNode.removeChild(one);
      });
      var aside = besides(points, picture.querySelector("svg"));
      field.appendChild(make("p", WORDS["tap-each-place"]));
      field.appendChild(picture);
      var places = all(".choices li", article).map(function (line, at) {
        var letter = String.fromCharCode(65 + at);
        var label = make("label", "", { "class": "row" });
        var box = make("input", "", { type: "checkbox", value: String(at) });
        var span = make("span"); span.innerHTML = line.innerHTML;
        span.insertBefore(make("b", letter + " "), span.firstChild);
        label.appendChild(box); label.appendChild(span);
        field.appendChild(label);
        // the same box, on the drawing: for the finger only, as its name stands beside the box
        var spot = make("span", letter, { "class": "spot", "aria-hidden": "true" });
        spot.style.left = "calc(" + points[at][0] + "% + " + aside[at][0] + "px)";
        spot.style.top = "calc(" + points[at][1] + "% + " + aside[at][1] + "px)";
        var lead = make("span", "", { "class": "lead", "aria-hidden": "true" });
        lead.style.left = points[at][0] + "%";
        lead.style.top = points[at][1] + "%";
        lead.style.width = Math.hypot(aside[at][0], aside[at][1]) + "px";
        lead.style.transform = "rotate(" + Math.atan2(aside[at][1], aside[at][0]) + "rad)";
        picture.appendChild(lead);
        function mark() { spot.classList.toggle("chosen", box.checked); }
        box.addEventListener("change", mark);
        spot.addEventListener("click", function () { if (!box.disabled) { box.checked = !box.checked; mark(); } });
        picture.appendChild(spot);
        return { box: box, spot: spot, wrong: line.getAttribute("data-fault") === "true" };
      });
      act.appendChild(make("button", WORDS["check"], { type: "submit" }));
      form.addEventListener("submit", function (event) {
        event.preventDefault();
        if (!places.some(function (one) { return one.box.checked; })) { live.textContent = WORDS["choose-first"]; return; }
        if (!silent) places.forEach(function (one) { one.spot.classList.toggle("fault", one.wrong); });
        finish(places.every(function (one) { return one.box.checked === one.wrong; }));
      });
    } else if (silent) {
      // nothing is told before the end: what is written here is held against the answer there
      var written = make("textarea", "", { id: "_w" + serial, rows: "3", autocomplete: "off" });
      field.appendChild(make("label", WORDS["write-short"], { "for": "_w" + serial }));
      field.appendChild(written);
      act.appendChild(make("button", WORDS["go-on"], { type: "submit" }));
      form.addEventListener("submit", function (event) { event.preventDefault(); done(null, written.value.trim()); });
    } else {
      field.appendChild(make("p", WORDS["say-or-write"]));
      act.appendChild(button(WORDS["look"], function () {
        live.textContent = "";
        live.appendChild(reason(article));
        act.textContent = "";
        act.appendChild(button(WORDS["had-all"], function () { silentMark(true); }));
        act.appendChild(button(WORDS["had-not-all"], function () { silentMark(false); }));
        act.querySelector("button").focus();
      }));
      form.addEventListener("submit", function (event) { event.preventDefault(); });
    }
    function silentMark(right) { done(right); }
    form.appendChild(live);
    form.appendChild(act);
    place.textContent = "";
    place.appendChild(form);
    var first = form.querySelector("input, textarea, button");
    if (first && place.getAttribute("data-focus") === "yes") first.focus();
  }

  // ---- views
  var bar = document.getElementById("_views");
  var nav = make("nav", "", { "aria-label": WORDS["ways-to-learn"], "class": "views" });
  var where = make("p", "", { "class": "count" });
  var views = {};
  var stage = make("section", "", { id: "_stage" });
  var keeping = make("section", "", { id: "_keeping" });
  bar.appendChild(nav); bar.appendChild(where);
  main.appendChild(stage); main.appendChild(keeping);
  var subjects = all(".subject"), know = document.getElementById("_know"), sums = document.getElementById("_sums");
  // long views begin with the way to their parts
  function jumps(parts, before) {
    if (parts.length < 3) return null;
    var box = make("details", "", { "class": "contents" });
    box.appendChild(make("summary", WORDS["on-this-sheet"]));
    var list = make("ul");
    parts.forEach(function (part, at) {
      var head = part.querySelector("h2, h3");
      head.id = head.id || before.id + "-part-" + at;
      head.tabIndex = -1;
      list.appendChild(make("li")).appendChild(make("a", words(head), { href: "#" + head.id }));
    });
    box.appendChild(list);
    before.parentNode.insertBefore(box, before);
    return box;
  }
  var toSubjects = jumps(subjects, subjects[0]), topics = all(".topic", sums);
  jumps(topics, topics[0]);
  function show(name, pressed) {
    know.hidden = name !== "know";
    subjects.forEach(function (one) { one.hidden = name !== "learn"; });
    if (toSubjects) toSubjects.hidden = name !== "learn";
    sums.hidden = name !== "sums";
    stage.hidden = name !== "test" && name !== "mock";
    keeping.hidden = name !== "keep";
    Object.keys(views).forEach(function (one) {
      if (one === name) views[one].setAttribute("aria-current", "true"); else views[one].removeAttribute("aria-current");
    });
    if (name === "test") test();
    if (name === "mock") mock();
    tell("");
    progress();
    // a question stands at the top of a small screen, not below the title and the buttons
    if (pressed && !stage.hidden) stage.scrollIntoView();
  }
  function view(name, label) { views[name] = button(label, function () { show(name, true); }); nav.appendChild(views[name]); return views[name]; }
  view("know", WORDS["must-know"]);
  view("learn", WORDS["learn"]);
  var testButton = view("test", WORDS["test-me"]);
  view("sums", WORDS["sums"]);
  view("mock", WORDS["try-a-check"]);
  view("keep", WORDS["keep-and-settings"]);

  // each subject: its questions answer in place
  tries.forEach(function (article) {
    var place = make("div", "", { "class": "place" });
    article.appendChild(place);
    all(".ask, .scene, .choices, .answer", article).forEach(function (one) { one.hidden = true; });
    function again() {
      place.setAttribute("data-focus", "no");
      ask(article, place, function (right) {
        answered(article.getAttribute("data-try"), right);
        place.setAttribute("data-focus", "no");
        place.textContent = "";
        place.appendChild(make("p", put(right ? WORDS["known-for-now"] : WORDS["back-today"], { name: words(article.querySelector(".ask")) })));
        place.appendChild(button(WORDS["ask-again"], again));
      });
    }
    again();
  });

  function heading(section, words_) {
    section.textContent = "";
    var head = make("h2", words_, { tabindex: "-1" });
    section.appendChild(head);
    return head;
  }
  function test() {
    var queue = dueNow();
    heading(stage, WORDS["test-me"]);
    var count = make("p", "", { "class": "count" });
    var place = make("div", "", { "data-focus": "yes" });
    stage.appendChild(count); stage.appendChild(place);
    function next() {
      if (queue.length === 0) {
        place.textContent = "";
        count.textContent = "";
        var soon = ids.filter(function (id) { return state.boxes[id]; }).map(function (id) { return state.due[id]; });
        var days = soon.length ? Math.max(0, Math.min.apply(null, soon) - today()) : 0;
        place.appendChild(make("p", WORDS["nothing-due"] + " " + (days ? put(days === 1 ? WORDS["come-back-one"] : WORDS["come-back-many"], { n: days }) : "")));
        return;
      }
      var article = queue.shift();
      count.textContent = put(isMust(article) ? WORDS["to-go-must"] : WORDS["to-go"], { n: queue.length + 1 });
      ask(article, place, function (right) {
        answered(article.getAttribute("data-try"), right);
        // what was wrong comes back after three others
        if (!right) queue.splice(Math.min(3, queue.length), 0, article);
        next();
      });
    }
    next();
  }
  // A check to try: one question an objective, others at each go. Its short answers are held against
  // the key at the end; one that was left half-way is gone on with.
  function find(id) { return tries[ids.indexOf(id)]; }
  function mock() {
    heading(stage, WORDS["try-a-check"]);
    stage.appendChild(make("p", WORDS["check-about"]));
    var again = null;
    if (state.half && state.half.at > 0) {
      again = make("p", put(WORDS["goes-on"], { n: Math.min(state.half.at + 1, state.half.picked.length), of: state.half.picked.length }) + " ");
      again.appendChild(button(WORDS["another-check"], function () { state.half = null; mock(); }));
      stage.appendChild(again);
    }
    if (!state.half) state.half = { picked: drawn(), at: 0, wrong: [], written: [] };
    var count = make("p", "", { "class": "count" });
    var place = make("div", "", { "data-focus": "yes" });
    stage.appendChild(count); stage.appendChild(place);
    var half = state.half;
    function took(id, right) { answered(id, right); if (!right) half.wrong.push(id); }
    function next() {
      keep();
      if (half.at < half.picked.length) {
        var id = half.picked[half.at];
        count.textContent = put(WORDS["question-of"], { n: half.at + 1, of: half.picked.length });
        ask(find(id), place, function (right, written) {
          half.at += 1;
          if (right === null) half.written.push({ id: id, text: written }); else took(id, right);
          next();
        }, true);
      } else if (half.written.length) mark(half.written[0]);
      else result();
    }
    function boxed(article, more) {
      var box = make("div", "", { "class": "boxed" });
      box.appendChild(make("p", words(article.querySelector(".ask"))));
      if (more) box.appendChild(make("p", more));
      box.appendChild(reason(article));
      return box;
    }
    function mark(one) {
      var article = find(one.id);
      count.textContent = put(WORDS["mark-own"], { n: half.written.length });
      place.textContent = "";
      place.appendChild(boxed(article, put(WORDS["you-wrote"], { text: one.text || "\u2013" })));
      var acts = make("div", "", { "class": "acts" });
      function judged(right) { half.written.shift(); took(one.id, right); next(); }
      acts.appendChild(button(WORDS["had-all"], function () { judged(true); }));
      acts.appendChild(button(WORDS["had-not-all"], function () { judged(false); }));
      place.appendChild(acts);
      acts.querySelector("button").focus();
    }
    function result() {
      var wrong = half.wrong.map(find);
      var missed = wrong.filter(isMust).length;
      state.half = null;
      if (again) again.hidden = true;
      state.mocks += 1;
      keep();
      count.textContent = "";
      place.textContent = "";
      place.appendChild(make("p", put(WORDS["right-of"], { n: half.picked.length - wrong.length, of: half.picked.length }) + " " +
        (missed ? put(missed === 1 ? WORDS["missed-one"] : WORDS["missed-many"], { n: missed }) : WORDS["every-must-right"])));
      wrong.forEach(function (article) { place.appendChild(boxed(article)); });
      place.appendChild(button(WORDS["another-check"], mock));
    }
    next();
  }
  function drawn() {
    var picked = [];
    objectives.forEach(function (line) {
      var here = of(line.getAttribute("data-objective"));
      if (here.length) picked.push(here[(today() + state.mocks + picked.length) % here.length]);
    });
    picked.sort(function (a, b) { return isMust(b) - isMust(a); });
    return picked.slice(0, 20).map(function (one) { return one.getAttribute("data-try"); });
  }

  // ---- sums: the first of a topic worked, the second half worked, the others blank
  all(".topic", sums).forEach(function (topic, number) {
    var articles = all(".sum", topic);
    articles.forEach(function (article, at) {
      var details = article.querySelector(".answer");
      var steps = all("ol > li", details);
      if (at === 0) { details.open = true; details.querySelector("summary").textContent = WORDS["worked-to-follow"]; return; }
      details.hidden = true;
      // the last step's result is the answer: it is never given
      var shown = at === 1 ? Math.floor(steps.length / 2) : 0;
      var id = number + "." + at;
      var form = make("form", "", { "class": "asking" });
      var hints = make("ol", "", { "class": "hints" });
      var live = make("p", "", { role: "status" });
      function hint() {
        if (shown > steps.length) return;
        hints.textContent = "";
        steps.slice(0, shown).forEach(function (step, at) {
          var line = step.cloneNode(true);
          if (at === steps.length - 1) all("b", line).slice(-1).forEach(function (result) { result.textContent = "?"; });
          hints.appendChild(line);
        });
      }
      hint();
      var label = make("label", article.getAttribute("data-unit") ? put(WORDS["your-answer-in"], { unit: article.getAttribute("data-unit") }) : WORDS["your-answer"], { "for": "_n" + id });
      var input = make("input", "", { id: "_n" + id, inputmode: "decimal", autocomplete: "off", size: "8" });
      var acts = make("div", "", { "class": "acts" });
      acts.appendChild(make("button", WORDS["check"], { type: "submit" }));
      acts.appendChild(button(WORDS["hint"], function () {
        if (shown < steps.length) { shown += 1; hint(); live.textContent = put(WORDS["step-shown"], { n: shown, of: steps.length }); }
        else live.textContent = WORDS["all-steps-shown"];
      }));
      form.addEventListener("submit", function (event) {
        event.preventDefault();
        var typed = input.value.trim().replace(/^\u2212/, "-").match(/^(-?[\d.,\s]*\d)\s*(.*)$/);
        var number = typed ? Number(typed[1].replace(/\s/g, "").replace(",", ".")) : NaN;
        if (!isFinite(number)) { live.textContent = WORDS["number-first"]; return; }
        // a unit may stand behind the number, as long as it is the one that is asked for
        var unit = article.getAttribute("data-unit").toLowerCase(), named = typed[2].toLowerCase().replace(/\.$/, "");
        if (named && unit && named.indexOf(unit) !== 0 && unit.indexOf(named) !== 0) { live.textContent = put(WORDS["your-answer-in"], { unit: article.getAttribute("data-unit") }); return; }
        var least = Number(article.getAttribute("data-least")), most = Number(article.getAttribute("data-most"));
        var slack = Math.abs(most) * 1e-9;
        if (number >= least - slack && number <= most + slack) {
          live.textContent = put(WORDS["right-answer"], { name: words(details.querySelector(".because")) });
          state.solved[id] = true;
          keep();
        } else live.textContent = number < least ? WORDS["too-small"] : WORDS["too-large"];
      });
      [hints, label, input, acts, live].forEach(function (one) { form.appendChild(one); });
      article.appendChild(form);
      if (state.solved[id]) live.textContent = WORDS["solved-before"];
    });
  });

  // ---- keep: days to the check, a code for another device, start afresh
  var SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  function code() {
    var bits = ids.map(function (id) { return state.boxes[id] || 0; });
    var text = "", sum = ids.length;
    for (var at = 0; at < bits.length; at += 5) {
      var value = 0;
      for (var bit = 0; bit < 5; bit += 1) value = value * 6 + (bits[at + bit] || 0);
      sum = (sum * 31 + value) % 1048573;
      // 6 to the power 5 is below 32 to the power 3
      text += SIGNS[value >> 10 & 31] + SIGNS[value >> 5 & 31] + SIGNS[value & 31];
    }
    return text + SIGNS[sum >> 5 & 31] + SIGNS[sum & 31];
  }
  function take(text) {
    var plain = text.toUpperCase().replace(/[^0-9A-Z]/g, "").replace(/O/g, "0").replace(/[IL]/g, "1");
    var groups = Math.ceil(ids.length / 5), sum = ids.length, boxes = [];
    if (plain.length !== groups * 3 + 2) return false;
    function sign(at) { return SIGNS.indexOf(plain[at]); }
    for (var at = 0; at < plain.length; at += 1) if (sign(at) < 0) return false;
    for (var group = 0; group < groups; group += 1) {
      var value = sign(group * 3) * 1024 + sign(group * 3 + 1) * 32 + sign(group * 3 + 2);
      if (value >= 7776) return false;
      sum = (sum * 31 + value) % 1048573;
      for (var bit = 4; bit >= 0; bit -= 1) { boxes[group * 5 + bit] = value % 6; value = Math.floor(value / 6); }
    }
    if (sign(plain.length - 2) !== (sum >> 5 & 31) || sign(plain.length - 1) !== (sum & 31)) return false;
    ids.forEach(function (id, at) {
      if (boxes[at]) { state.boxes[id] = boxes[at]; state.due[id] = boxes[at] === 1 ? today() : today() + wait(boxes[at]); }
      else { delete state.boxes[id]; delete state.due[id]; }
    });
    keep();
    return true;
  }
  (function () {
    heading(keeping, WORDS["keep-and-settings"]);
    keeping.appendChild(make("p", storage ? WORDS["kept-here"] : WORDS["keeps-nothing"]));
    var form = make("form", "", { "class": "asking" });
    form.appendChild(make("label", WORDS["days-to-check"], { "for": "_days" }));
    var days = make("input", "", { id: "_days", inputmode: "numeric", size: "4" });
    if (state.check) days.value = String(Math.max(0, state.check - today()));
    form.appendChild(days);
    form.appendChild(make("p", WORDS["comes-back-after"]));
    form.appendChild(make("button", WORDS["set"], { type: "submit" }));
    form.addEventListener("submit", function (event) {
      event.preventDefault();
      var number = Number(days.value);
      if (!(number >= 0 && number <= 366) || number % 1 !== 0 || days.value.trim() === "") { tell(WORDS["days-wrong"]); return; }
      state.check = today() + number;
      ids.forEach(function (id) { if (state.boxes[id] > 1) state.due[id] = Math.min(state.due[id], today() + wait(state.boxes[id])); });
      keep();
      tell(put(WORDS["days-set"], { n: number }));
      progress();
    });
    keeping.appendChild(form);
    var out = make("output", "", { id: "_code", "class": "code" });
    keeping.appendChild(make("h3", WORDS["another-device"]));
    keeping.appendChild(button(WORDS["show-code"], function () { out.textContent = code().replace(/(.{5})(?=.)/g, "$1 "); }));
    keeping.appendChild(out);
    var bring = make("form", "", { "class": "asking" });
    bring.appendChild(make("label", WORDS["code-from"], { "for": "_bring" }));
    var text = make("input", "", { id: "_bring", autocomplete: "off", autocapitalize: "characters", spellcheck: "false" });
    bring.appendChild(text);
    bring.appendChild(make("button", WORDS["take-it"], { type: "submit" }));
    bring.addEventListener("submit", function (event) {
      event.preventDefault();
      var good = take(text.value);
      progress();
      tell(good ? WORDS["taken"] : WORDS["no-code"]);
    });
    keeping.appendChild(bring);
    keeping.appendChild(make("h3", WORDS["start-afresh"]));
    var sure = make("p", "", { hidden: "" });
    sure.appendChild(make("span", WORDS["forget-sure"] + " "));
    sure.appendChild(button(WORDS["yes-forget"], function () {
      state = { boxes: {}, due: {}, check: state.check, solved: {}, mocks: 0, half: null };
      keep(); sure.hidden = true; progress(); tell(WORDS["forgotten"]);
    }));
    sure.appendChild(button(WORDS["no-keep"], function () { sure.hidden = true; }));
    keeping.appendChild(button(WORDS["start-afresh"], function () { sure.hidden = false; sure.querySelector("button").focus(); }));
    keeping.appendChild(sure);
  })();

  show("know");
  if (!storage) tell(WORDS["keeps-nothing"]);
})();
