// Sends a photo and says how that went, without leaving the page. None is kept on the phone: what the service did not take stays chosen in the form.

import { refresh } from "./board.js";
import { reasonOf } from "./queue.js";

const patience = 30000;  // what a service that hangs may keep somebody waiting,
const slowest = 50;      // and what a slow network takes for its bytes [bytes/ms]
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
  const files = [...form.elements.photo.files];
  if (files.some(file => file.size > Number(form.dataset.most))) {
    said.textContent = form.dataset.large;
    return;
  }
  isSending = true;
  said.textContent = form.dataset.sending;
  try {
    const limit = patience + files.reduce((bytes, file) => bytes + file.size, 0) / slowest;
    const answer = await fetch(form.action, { method: "POST", body: new FormData(form), signal: AbortSignal.timeout(limit) });
    const path = new URL(answer.url).pathname;
    if (answer.ok && answer.redirected && `${path}/photos` === new URL(form.action).pathname) {
      form.reset();
      said.textContent = form.dataset.kept;
      await refresh();
    } else if (answer.status === 401) {
      said.textContent = form.dataset.shut;
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
