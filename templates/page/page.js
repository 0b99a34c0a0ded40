// Keeps what was ticked and written on this sheet, on this device only.
// Nothing here is needed to read, tick, write on or print the sheet.
(function () {
  "use strict";
  var main = document.getElementById("_main");
  var boxes = Array.prototype.slice.call(main.querySelectorAll("input[type=checkbox]"));
  var lines = Array.prototype.slice.call(main.querySelectorAll("input.blank"));
  var key = document.body.getAttribute("data-key");

  // A region takes the keyboard only while there is something to scroll to.
  var regions = Array.prototype.slice.call(main.querySelectorAll(".scroll"));
  function fit() {
    regions.forEach(function (region) {
      if (region.scrollWidth > region.clientWidth) {
        region.setAttribute("tabindex", "0");
      } else {
        region.removeAttribute("tabindex");
      }
    });
  }
  fit();
  window.addEventListener("resize", fit);

  // A value that is pressed tells where it comes from.
  var pane = document.getElementById("_why");
  if (pane && pane.showModal) {
    var known = {};
    Array.prototype.forEach.call(document.querySelectorAll("[data-why]"), function (entry) {
      known[entry.getAttribute("data-why")] = entry;
    });
    document.body.classList.add("tells");
    main.addEventListener("click", function (event) {
      var value = event.target.closest("data[data-of]");
      if (!value || event.target.closest("a, label, input, button")) return;
      var entry = known[value.getAttribute("data-of")];
      if (!entry) return;
      var list = pane.querySelector("dl");
      list.textContent = "";
      list.appendChild(entry.cloneNode(true));
      pane.showModal();
    });
    document.getElementById("_told").addEventListener("click", function () { pane.close(); });
  }

  var bar = document.getElementById("_kept");
  if (!bar || boxes.length + lines.length === 0) return;
  var done = document.getElementById("_done");
  var keeps = true;

  function read() {
    try {
      var kept = JSON.parse(window.localStorage.getItem(key) || "{}");
      return kept && typeof kept === "object" ? kept : {};
    } catch (error) {
      keeps = false;
      return {};
    }
  }

  function write() {
    var kept = {};
    boxes.forEach(function (box) { if (box.checked) kept[box.id] = true; });
    lines.forEach(function (line) { if (line.value) kept[line.id] = line.value; });
    try {
      if (Object.keys(kept).length) window.localStorage.setItem(key, JSON.stringify(kept));
      else window.localStorage.removeItem(key);
    } catch (error) {
      keeps = false;
    }
  }

  function say() {
    var ticked = boxes.filter(function (box) { return box.checked; }).length;
    var text = boxes.length ? WORDS["ticked"].replace("{n}", ticked).replace("{of}", boxes.length) : "";
    if (!keeps) text += (text ? ". " : "") + WORDS["forgets"];
    done.textContent = text;
  }

  var kept = read();
  boxes.forEach(function (box) { box.checked = kept[box.id] === true; });
  lines.forEach(function (line) {
    if (typeof kept[line.id] === "string") line.value = kept[line.id];
  });
  main.addEventListener("change", function () { write(); say(); });
  main.addEventListener("input", function () { write(); });
  say();
  bar.hidden = false;

  var ask = document.getElementById("_ask");
  var clear = document.getElementById("_clear");
  clear.addEventListener("click", function () {
    ask.hidden = false;
    clear.hidden = true;
    document.getElementById("_no").focus();
  });
  function close() {
    ask.hidden = true;
    clear.hidden = false;
    clear.focus();
  }
  document.getElementById("_no").addEventListener("click", close);
  ask.addEventListener("keydown", function (event) { if (event.key === "Escape") close(); });
  document.getElementById("_yes").addEventListener("click", function () {
    boxes.forEach(function (box) { box.checked = false; });
    lines.forEach(function (line) { line.value = ""; });
    write();
    say();
    close();
  });
})();
