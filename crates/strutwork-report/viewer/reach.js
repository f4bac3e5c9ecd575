/** Tables wider than the page are scrolled; those must be reached by keys too. */
function reachTables() {
  for (const place of document.querySelectorAll("main .table")) {
    if (place.scrollWidth <= place.clientWidth && place.scrollHeight <= place.clientHeight) continue;
    place.tabIndex = 0;
    place.setAttribute("role", "region");
    place.setAttribute("aria-label", place.querySelector("caption")?.textContent ?? "table");
  }
}
