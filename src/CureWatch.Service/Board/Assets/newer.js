// A page that is older than the service it hears would have new markup under old styles and scripts. A wall, which nobody touches, loads itself
// again; elsewhere something may be typed, so whoever is there decides when.

import { spoken } from "./tongue.js";

const styleOf = page => page.querySelector("link[rel=stylesheet]").getAttribute("href");

export function sayIfNewer(page) {
  const notice = document.getElementById("newer");
  if (styleOf(page) === styleOf(document) || !notice.hidden) {
    return;
  }
  if (document.querySelector(".wall")) {
    location.reload();
    return;
  }
  const button = document.createElement("button");
  button.type = "button";
  button.className = "quiet";
  button.textContent = spoken("Load it again");
  button.addEventListener("click", () => location.reload());
  notice.replaceChildren(spoken("The service is newer than this page. Send what you have filled in first."), " ", button);
  notice.hidden = false;
}
