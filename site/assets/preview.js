// Waits until the files of the plant have another state, and shows the page again: at the step that
// was edited, or where it was.
(() => {
  const { now: own, at } = document.currentScript.dataset;
  const pause = (time) => new Promise((done) => setTimeout(done, time));
  const seen = () =>
    new Promise((done) => document.addEventListener('visibilitychange', done, { once: true }));

  function again() {
    history.replaceState({ again: true }, '');
    location.reload();
  }

  // Who came by a link is left where the link leads.
  function arrive() {
    if (!history.state?.again) return;
    history.replaceState(null, '');
    if (!at) return;
    location.replace(`#${at}`);
    document.getElementById(at)?.scrollIntoView();
  }

  async function wait() {
    for (;;) {
      // A page that nobody sees asks nothing: a browser has few connections to one server.
      while (document.hidden) await seen();
      try {
        const answer = await fetch(`/preview/changes?since=${own}`);
        const { now } = await answer.json();
        if (`${now}` !== own) return again();
      } catch {
        await pause(500);
      }
    }
  }

  // A browser first goes back to where the page was.
  addEventListener('load', () => requestAnimationFrame(() => requestAnimationFrame(arrive)));
  wait();
})();
