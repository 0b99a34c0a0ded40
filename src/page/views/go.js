// The way from view to view is the address after #, so that the browser's back
// button and bookmarks work.

export function go(route) {
  if (location.hash === `#${route}`) window.dispatchEvent(new HashChangeEvent("hashchange"));
  else location.hash = route;
}

/** The view and what it is to show: #papers/learners/kitchen-checklist.html */
export function route() {
  return decodeURIComponent(location.hash.slice(1)).split("/");
}
