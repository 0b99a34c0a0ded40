// Shows study cards one at a time, answers hidden until asked for. Without it
// every card and its answer stand on the page.
(function () {
  "use strict";
  var main = document.getElementById("_main");
  var bar = document.getElementById("_deck");
  var cards = Array.prototype.slice.call(main.querySelectorAll(".card"));
  if (!bar || cards.length === 0) return;
  var key = document.body.getAttribute("data-key") + "-known";
  function part(id) { return document.getElementById(id); }
  var place = part("_place"), turn = part("_turn"), knew = part("_knew");
  var order = part("_order"), left = part("_left"), all = part("_all");

  var state = { known: {}, order: 0, left: false };
  try {
    var kept = JSON.parse(window.localStorage.getItem(key) || "null");
    if (kept && typeof kept === "object") {
      state.order = Math.max(0, Math.min(9999, kept.order | 0));
      state.left = kept.left === true;
      if (kept.known && typeof kept.known === "object") state.known = kept.known;
    }
  } catch (error) { /* Nothing kept, or not to be read: start afresh. */ }

  function keep() {
    try { window.localStorage.setItem(key, JSON.stringify(state)); } catch (error) { /* Works on without. */ }
  }

  // A small generator of numbers (a 32-bit linear congruential one): the same
  // order number deals the same order everywhere.
  function deal(seed) {
    var dealt = cards.slice();
    if (seed === 0) return dealt;
    var number = seed >>> 0;
    function next() {
      number = (Math.imul(number, 1664525) + 1013904223) >>> 0;
      return number / 4294967296;
    }
    for (var warm = 0; warm < 8; warm += 1) next();
    for (var at = dealt.length - 1; at > 0; at -= 1) {
      var other = Math.floor(next() * (at + 1));
      var card = dealt[at];
      dealt[at] = dealt[other];
      dealt[other] = card;
    }
    return dealt;
  }

  var dealt = deal(state.order);
  var at = 0;

  function isKnown(card) { return state.known[card.id] === true; }

  function inPlay() {
    if (!state.left) return dealt;
    return dealt.filter(function (card) { return !isKnown(card); });
  }

  function show(turned) {
    var play = inPlay();
    main.classList.toggle("dealt", !all.checked);
    var known = cards.filter(isKnown).length;
    var topics = main.querySelectorAll(".topic");
    Array.prototype.forEach.call(topics, function (topic) { topic.classList.remove("now"); });
    cards.forEach(function (card) {
      card.classList.remove("now", "turned");
      card.classList.toggle("known", isKnown(card));
    });
    var none = play.length === 0 || all.checked;
    [part("_back"), turn, part("_next"), knew].forEach(function (button) { button.hidden = none; });
    if (all.checked) {
      place.textContent = WORDS["cards-known"].replace("{of}", cards.length).replace("{n}", known);
      return;
    }
    if (play.length === 0) {
      place.textContent = WORDS["all-cards-known"].replace("{of}", cards.length);
      return;
    }
    at = (at + play.length) % play.length;
    var card = play[at];
    card.classList.add("now");
    if (turned) card.classList.add("turned");
    if (card.parentNode.classList.contains("topic")) card.parentNode.classList.add("now");
    turn.textContent = turned ? WORDS["hide-answer"] : WORDS["show-answer"];
    turn.setAttribute("aria-expanded", String(turned));
    knew.setAttribute("aria-pressed", String(isKnown(card)));
    place.textContent = WORDS["card-of"].replace("{n}", at + 1).replace("{of}", play.length).replace("{known}", known);
  }

  function card() { return inPlay()[at]; }
  function isTurned() { var here = card(); return !!here && here.classList.contains("turned"); }
  function flip() { show(!isTurned()); }
  function go(step) { at += step; show(false); }

  cards.forEach(function (card) { var head = card.querySelector("h3"); if (head) head.setAttribute("data-known", WORDS["known"]); });
  cards.forEach(function (card) { card.querySelector(".back").setAttribute("aria-live", "polite"); });
  part("_back").addEventListener("click", function () { go(-1); });
  part("_next").addEventListener("click", function () { go(1); });
  turn.addEventListener("click", flip);
  knew.addEventListener("click", function () {
    var here = card();
    if (!here) return;
    if (isKnown(here)) delete state.known[here.id];
    else state.known[here.id] = true;
    keep();
    // A card that is known leaves the round when only the others are wanted.
    show(isTurned() && !state.left);
  });
  order.addEventListener("change", function () {
    state.order = Math.max(0, Math.min(9999, Math.floor(Number(order.value)) || 0));
    order.value = String(state.order);
    dealt = deal(state.order);
    at = 0;
    keep();
    show(false);
  });
  left.addEventListener("change", function () { state.left = left.checked; at = 0; keep(); show(false); });
  all.addEventListener("change", function () { show(false); });
  part("_forget").addEventListener("click", function () {
    state.known = {};
    at = 0;
    keep();
    show(false);
  });

  document.addEventListener("keydown", function (event) {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || all.checked) return;
    var tag = event.target.tagName;
    if (tag === "INPUT" || tag === "TEXTAREA") return;
    if (event.key === "ArrowRight") go(1);
    else if (event.key === "ArrowLeft") go(-1);
    else if ((event.key === " " || event.key === "Enter") && tag !== "BUTTON" && tag !== "A" && tag !== "SUMMARY") flip();
    else return;
    event.preventDefault();
  });

  order.value = String(state.order);
  left.checked = state.left;
  bar.hidden = false;
  show(false);
})();
