// The rest clock counts up from what the server said. It never closes or saves anything.

/** Minutes and seconds, as 2:05. */
export function clockText(seconds) {
  const whole = Math.max(0, Math.floor(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/** Keep the clock of a page going, if it has one. */
export function startClock(page) {
  const clock = page.querySelector("[data-rest-passed]");
  const face = clock?.querySelector("[data-clock]");
  if (!face) return;
  const before = Number(clock.dataset.restPassed);
  const began = performance.now();
  const tick = () => {
    face.textContent = clockText(before + (performance.now() - began) / 1000);
  };
  tick();
  setInterval(tick, 1000);
}
