// Comforts of the gym floor, each only where the phone allows it; none of them saves anything.
import { clockText } from "./rest.js";

let lock = null;
let awake = false;
let asking = false;

/** Keep the screen awake from now on, or no longer; hidden, the phone itself lets it sleep. */
export async function keepAwake(on) {
  awake = on;
  if (!on) {
    await lock?.release();
    return;
  }
  if (!("wakeLock" in navigator) || document.visibilityState !== "visible" || lock || asking) return;
  asking = true;
  try {
    lock = await navigator.wakeLock.request("screen");
    lock.addEventListener("release", () => (lock = null));
    if (!awake) await lock.release();
  } catch (error) {
    if (error.name !== "NotAllowedError") throw error; // a low battery says no: so be it
  } finally {
    asking = false;
  }
}

let sound = null;

/** Whether she wants to hear and feel the end of a rest; remembered on this phone. */
export const wantsSignal = () => localStorage.getItem("signal") === "on";

/** Switch the signal; called by a touch, which is what allows sound at all. */
export function switchSignal() {
  localStorage.setItem("signal", wantsSignal() ? "off" : "on");
  if (wantsSignal()) signal();
}

/** Ready the sound by a touch, long before it is needed: phones refuse it to a page by itself. */
export function readySignal() {
  if (!wantsSignal() || !("AudioContext" in self)) return;
  sound ??= new AudioContext();
  if (sound.state === "suspended") sound.resume();
}

function signal() {
  navigator.vibrate?.([200, 100, 200]);
  readySignal();
  if (!sound) return;
  const tone = sound.createOscillator();
  const level = sound.createGain();
  level.gain.value = 0.2;
  tone.frequency.value = 880;
  tone.connect(level).connect(sound.destination);
  tone.start();
  tone.stop(sound.currentTime + 0.25);
}

let ticking = 0;
let told = "";

/** Count the rest on this face from a moment on; at the asked rest, signal once. */
export function countRest(face, since, asked) {
  clearInterval(ticking);
  if (!face) return;
  if (!since) {
    face.textContent = asked ? clockText(asked) : "";
    return;
  }
  const began = new Date(since).getTime();
  const tick = () => {
    const passed = (Date.now() - began) / 1000;
    face.textContent = clockText(passed);
    if (asked && passed >= asked && passed < asked + 5 && told !== since) {
      told = since;
      if (wantsSignal()) signal();
    }
  };
  tick();
  ticking = setInterval(tick, 1000);
}

/** Count the seconds of a hold, or the reps of a tempo by its beats, until told to stop. */
export function countUp(face, beats) {
  const began = performance.now();
  const whole = beats.reduce((sum, one) => sum + one, 0);
  const passed = () => (performance.now() - began) / 1000;
  const tick = () => (face.textContent = whole ? beatText(passed(), whole, beats) : clockText(passed()));
  tick();
  const id = setInterval(tick, 100);
  return () => {
    clearInterval(id);
    return Math.floor(whole ? passed() / whole : passed());
  };
}

const PHASES = ["lower", "hold", "lift", "hold"];

function beatText(passed, whole, beats) {
  const rep = `rep ${Math.floor(passed / whole) + 1}`;
  let left = passed % whole;
  for (let i = 0; i < beats.length; i += 1) {
    if (left < beats[i]) return `${rep} · ${PHASES[i]} ${Math.floor(left) + 1}`;
    left -= beats[i];
  }
  return rep;
}
