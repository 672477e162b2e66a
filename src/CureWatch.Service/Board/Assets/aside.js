// Has the phone put its pages aside, so that they open without the service. Browsers allow it by HTTPS, and on the service's own computer.

async function putAside() {
  await navigator.serviceWorker.register("/worker.js");
  const { active } = await navigator.serviceWorker.ready;
  const assets = performance.getEntriesByType("resource").map(entry => entry.name).filter(name => new URL(name).pathname.startsWith("/assets/"));
  active.postMessage([location.href, ...assets]);
}

if ("serviceWorker" in navigator) {
  putAside().catch(() => undefined); // a browser may forbid it, in a private window for one: then the pages need the service
}
