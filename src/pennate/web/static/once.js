// A drop of water taps twice: a form that saves is sent once a second at most.

const PAUSE_MS = 1000;

/** Guard every saving form of a page. */
export function guardForms(page) {
  for (const form of page.querySelectorAll('form[method="post"]')) {
    let sent = -Infinity;
    form.addEventListener("submit", (event) => {
      if (event.submitter?.formMethod === "get") return;
      if (event.timeStamp - sent < PAUSE_MS) event.preventDefault();
      else sent = event.timeStamp;
    });
  }
}
