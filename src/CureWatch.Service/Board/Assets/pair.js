// Asks every few seconds whether somebody let this screen in; where the number is no longer good, shows the new one.
const number = document.querySelector(".pair .big").textContent;

setInterval(async () => {
  const answer = await fetch("/pair").catch(() => null);
  if (answer?.redirected) {
    location.replace(answer.url);
  } else if (answer?.ok && !(await answer.text()).includes(number)) {
    location.reload();
  }
}, 5000);
