// Sends a photo and says how that went, without leaving the page. None is kept on the phone: what the service did not take stays chosen in the form.

import { refresh } from "./board.js";
import { reasonOf } from "./queue.js";

let isSending = false;

async function sendPhoto(event) {
  const form = event.target;
  if (!form.matches("[data-photo]")) {
    return;
  }
  event.preventDefault();
  const said = form.querySelector(".photo-said");
  if (isSending) {
    return;
  }
  if ([...form.elements.photo.files].some(file => file.size > Number(form.dataset.most))) {
    said.textContent = form.dataset.large;
    return;
  }
  isSending = true;
  said.textContent = form.dataset.sending;
  try {
    const answer = await fetch(form.action, { method: "POST", body: new FormData(form) });
    const path = new URL(answer.url).pathname;
    if (answer.ok && answer.redirected && `${path}/photos` === new URL(form.action).pathname) {
      form.reset();
      said.textContent = form.dataset.kept;
      await refresh();
    } else if (path === "/sign-in") {
      location.assign(answer.url);
    } else {
      said.textContent = reasonOf(await answer.text());
    }
  } catch {
    said.textContent = form.dataset.unheard;
  } finally {
    isSending = false;
  }
}

document.addEventListener("submit", sendPhoto);
