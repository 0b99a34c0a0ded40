// Finds departures in the table of a season, on this device. Nothing here is
// needed to read or print the page.
(function () {
  "use strict";
  var box = document.getElementById("_find");
  var words = document.getElementById("_words");
  var found = document.getElementById("_found");
  var rows = Array.prototype.slice.call(document.querySelectorAll("#_rows tbody tr"));
  var texts = rows.map(function (row) { return row.textContent.toLowerCase(); });
  function show() {
    var wanted = words.value.toLowerCase().split(/\s+/).filter(Boolean);
    var count = 0;
    rows.forEach(function (row, at) {
      var fits = wanted.every(function (word) { return texts[at].indexOf(word) >= 0; });
      row.hidden = !fits;
      if (fits) count += 1;
    });
    found.textContent = WORDS["departures-found"].replace("{n}", count).replace("{of}", rows.length);
  }
  box.hidden = false;
  words.addEventListener("input", show);
  show();
})();
