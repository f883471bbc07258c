// In place of the script that would have a worker keep the pages: a worker that keeps them already is asked to look at its
// file again, and what it finds there takes it away.
navigator.serviceWorker?.getRegistrations().then((workers) => {
  for (const worker of workers) if (worker.scope === location.origin + "/") worker.update();
});
