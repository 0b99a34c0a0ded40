// Runs in front of a sheet's own script, inside the sheet's frame. The frame
// has an origin of its own and no store: what is ticked and written is handed
// to the page, which keeps it. Links within the sheet and to other sheets work
// as they do in a packet on disk.
(function () {
  "use strict";
  var marks = JSON.parse(document.getElementById("_marks").textContent);
  function tell(what) {
    window.parent.postMessage(what, "*");
  }
  Object.defineProperty(window, "localStorage", {
    value: {
      getItem: function (key) {
        return Object.prototype.hasOwnProperty.call(marks, key) ? marks[key] : null;
      },
      setItem: function (key, value) {
        marks[key] = String(value);
        tell({ keep: marks });
      },
      removeItem: function (key) {
        delete marks[key];
        tell({ keep: marks });
      },
    },
  });
  window.addEventListener("message", function (event) {
    if (event.source === window.parent && event.data === "print") window.print();
  });
  document.addEventListener("click", function (event) {
    var link = event.target.closest ? event.target.closest("a[href]") : null;
    if (!link || event.defaultPrevented) return;
    var to = link.getAttribute("href");
    if (to.charAt(0) === "#") {
      event.preventDefault();
      var target = document.getElementById(decodeURIComponent(to.slice(1)));
      if (!target) return;
      if (!target.hasAttribute("tabindex")) target.setAttribute("tabindex", "-1");
      target.scrollIntoView();
      target.focus();
    } else if (/^[a-z]+:/i.test(to)) {
      link.target = "_blank";
      link.rel = "noreferrer";
    } else {
      event.preventDefault();
      tell({ go: to });
    }
  });
})();
