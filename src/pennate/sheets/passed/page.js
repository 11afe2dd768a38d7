"use strict";
// The follower's loads. The only formulas: a tabled share of what was moved, rounded down to a
// step, and a table read between its knots. They are those of core/follow.py, in whole
// thousandths, and tested against it. What is typed is kept on this device and goes nowhere.
(() => {
  const data = JSON.parse(document.getElementById("tables").textContent);
  const THOUSAND = 1000, FINEST = 100, MOST_SHOWN = 40;
  const all = (query, from = document) => [...from.querySelectorAll(query)];
  const one = (query, from = document) => from.querySelector(query);

  // The formulas.

  const between = (knots, values, at) => {
    if (at <= knots[0]) return values[0];
    for (let n = 1; n < knots.length; n += 1) {
      if (at <= knots[n]) {
        const rise = (values[n] - values[n - 1]) * (at - knots[n - 1]);
        return values[n - 1] + Math.floor(rise / (knots[n] - knots[n - 1]));
      }
    }
    return values[values.length - 1];
  };

  const roundedDown = (wanted, lightest, step, option, takenOff) => {
    const by = step || FINEST;
    if (option.helped || takenOff) return Math.floor(wanted / by) * by;
    if (option.bodily) return Math.floor(Math.max(wanted, 0) / by) * by;
    return wanted < lightest ? null : lightest + Math.floor((wanted - lightest) / by) * by;
  };

  const loadOf = (group, option, typed, known, loads, carried) => {
    const double = option.together ? 2 : 1;
    const lightest = typed.lightest * double, step = typed.step * double;
    if (group.source === "none") return null;
    if (group.source === "lightest") return lightest;
    let base = option.helped ? -typed.load : typed.load;
    let share = group.share;
    if (group.source === "table") share = group.shares[known];
    else base = loads[group.of];
    if (base === null) return null;
    const wanted = Math.floor(((base + carried) * share) / THOUSAND) - carried;
    const takenOff = option.helpable && !(group.warm && base >= 0);
    return roundedDown(wanted, lightest, step, option, takenOff);
  };

  const repsOf = (rows, share, reserve) => {
    const [low, high] = rows.map((values) => between(data.knots, values, share));
    return [Math.max(Math.floor(low / 10) - reserve, 0), Math.max(Math.ceil(high / 10) - reserve, 0)];
  };

  const loadsFor = (option, typed) => {
    const table = data.tables[option.curve];
    const known = Math.min(typed.reps + typed.reserve, table.length) - 1;
    const carried = Math.floor((typed.body * option.carried) / THOUSAND);
    const moved = (option.helped ? -typed.load : typed.load) + carried;
    const loads = [];
    return option.groups.map((group) => {
      const load = loadOf(group, option, typed, known, loads, carried);
      loads.push(load);
      if (group.source === "none") return null;
      if (load === null || group.warm) return { load, first: null, last: null };
      const [first, last] = group.tired.map((tired) =>
        repsOf(table[known], Math.floor(((load + carried) * tired) / moved), group.reserve));
      return { load, first, last };
    });
  };

  // Words.

  const number = (thousandths) => String(Math.abs(thousandths) / THOUSAND);
  const range = ([low, high]) => {
    if (low >= MOST_SHOWN) return `${MOST_SHOWN} or more`;
    if (high >= MOST_SHOWN) return `${low} or more`;
    return low === high ? `${low}` : `${low}–${high}`;
  };

  const loadWords = (load, option, unit) => {
    if (load === null) return "Lighter than the lightest you have";
    if (option.bodily && load < 0) return `${number(load)} ${unit} of help, from a band or a machine`;
    if (option.bodily) return load ? `body weight + ${number(load)} ${unit}` : "body weight alone";
    if (option.helped && load < 0) return `${number(load)} ${unit} of help`;
    if (option.helped) return load ? `body weight + ${number(load)} ${unit}` : "without help";
    if (option.together) return `${number(load)} ${unit} together`;
    return `${number(load)} ${unit}` + (option.each ? " each" : "");
  };

  const likelyWords = (told, group, count) => {
    if (!told || !told.first) return "";
    const stop = group.reserve ? ` with ${group.reserve} left` : "";
    const last = count > 1 && range(told.last) !== range(told.first)
      ? `; in the last set ${range(told.last)}` : "";
    return `Likely ${range(told.first)} reps${stop}${last}.`;
  };

  // What is kept on this device.

  const empty = () => ({ unit: "kg", body: "", kinds: {}, sets: {}, chosen: {} });
  const said = document.getElementById("said");
  const stored = () => {
    try {
      return { ...empty(), ...JSON.parse(localStorage.getItem(data.name) || "{}") };
    } catch (error) {
      said.textContent = `What was typed before cannot be read here (${error.name}).`;
      return empty();
    }
  };
  const keep = () => {
    try {
      localStorage.setItem(data.name, JSON.stringify(kept));
      said.textContent = "";
    } catch (error) {
      said.textContent = `This browser keeps nothing (${error.name}): it is gone when you close the page.`;
    }
  };
  let kept = stored();

  // Reading fields: thousandths, whole numbers, and one sentence for what is neither.

  class Slip extends Error {}
  const amount = (text, name, high = 2000) => {
    const plain = text.trim().replace(",", ".").replace("−", "-");
    if (!/^\d{1,4}(\.\d{1,3})?$/.test(plain) || Number(plain) > high) {
      throw new Slip(`${name}: “${text}” is no number from 0 to ${high}; write it like 42.5.`);
    }
    return Math.round(Number(plain) * THOUSAND);
  };
  const count = (text, name, low, high) => {
    const plain = text.trim();
    if (!/^\d{1,3}$/.test(plain) || Number(plain) < low || Number(plain) > high) {
      throw new Slip(`${name}: “${text}” is no whole number from ${low} to ${high}; write it like 8.`);
    }
    return Number(plain);
  };

  const given = (values, name, fallback) => values[name] || fallback || "";
  const typedFor = (option) => {
    const set = kept.sets[option.key] || {};
    const kind = kept.kinds[option.kind] || {};
    const bodily = option.bodily && !set.load;
    if ((!set.load && !bodily) || !set.reps) return null;
    const typed = {
      load: bodily ? 0 : amount(set.load, "Load"),
      reps: count(set.reps, "Reps", 1, 100),
      reserve: set.reserve ? count(set.reserve, "Reps you had left", 0, 10) : 0,
      lightest: amount(given(set, "start", kind.start) || "0", "Lightest"),
      step: amount(given(set, "step", kind.step) || "0", "Smallest step"),
      body: kept.body ? amount(kept.body, "Your body weight") : 0,
    };
    if (option.carried && !typed.body) {
      throw new Slip("This carries body weight: type yours under “Your equipment”, or go by the rule.");
    }
    const carried = Math.floor((typed.body * option.carried) / THOUSAND);
    if ((option.helped ? -typed.load : typed.load) + carried <= 0) {
      throw new Slip(option.helped
        ? "Load: more help than the body weighs; type what the machine takes off."
        : "Load: nothing was moved; type what you lifted.");
    }
    return typed;
  };

  // Drawing.

  const drawOption = (box) => {
    const option = data.options[box.dataset.option];
    if (!option) return;
    const complaint = one("[data-complaint]", box);
    let told = null;
    complaint.textContent = "";
    try {
      const typed = typedFor(option);
      told = typed && loadsFor(option, typed);
    } catch (slip) {
      if (!(slip instanceof Slip)) throw slip;
      complaint.textContent = slip.message;
    }
    box.classList.toggle("known", Boolean(told));
    const first = told && told.find((here, place) => here && !option.groups[place].warm);
    one("[data-told]", box).textContent = first
      ? `First working load: ${loadWords(first.load, option, kept.unit)}.` : "";
    option.groups.forEach((group, place) => {
      const here = told && told[place];
      const output = one(`[data-group="${place}"]`, box);
      const likely = one(`[data-likely="${place}"]`, box);
      if (output) {
        output.hidden = !here;
        output.textContent = here ? loadWords(here.load, option, kept.unit) : "";
        output.classList.toggle("words", Boolean(here) && here.load === null);
      }
      if (likely) {
        likely.textContent = likelyWords(here, group, group.count);
        likely.hidden = !likely.textContent;
      }
    });
  };

  const drawAll = () => all("[data-option]").forEach(drawOption);

  const marked = (input, check) => {
    try {
      if (input.value.trim()) check(input.value);
      input.removeAttribute("aria-invalid");
      return "";
    } catch (slip) {
      if (!(slip instanceof Slip)) throw slip;
      input.setAttribute("aria-invalid", "true");
      return slip.message;
    }
  };
  const checks = {
    load: (text) => amount(text, "Load"),
    reps: (text) => count(text, "Reps", 1, 100),
    reserve: (text) => count(text, "Reps you had left", 0, 10),
    start: (text) => amount(text, "Lightest"),
    step: (text) => amount(text, "Smallest step"),
    body: (text) => amount(text, "Your body weight"),
  };

  const usual = (box) => {
    const [start, step] = box.dataset[kept.unit].split(" ").map(Number).map(String);
    return { start, step };
  };

  const fill = () => {
    all("[name=unit]").forEach((radio) => { radio.checked = radio.value === kept.unit; });
    all("[data-field=body]").forEach((input) => { input.value = kept.body; });
    all("[data-kind]").forEach((box) => {
      kept.kinds[box.dataset.kind] = { ...usual(box), ...kept.kinds[box.dataset.kind] };
      all("[data-field]", box).forEach((input) => {
        input.value = kept.kinds[box.dataset.kind][input.dataset.field];
      });
    });
    all("[data-key]").forEach((box) => all("[data-field]", box).forEach((input) => {
      input.value = (kept.sets[box.dataset.key] || {})[input.dataset.field] || "";
    }));
    all("[data-field]").forEach((input) => marked(input, checks[input.dataset.field]));
    all("[data-place]").forEach((place) => choose(place, kept.chosen[place.dataset.place] || "0"));
    drawAll();
    all(".mine").forEach((mine) => {
      one(".remembered", mine).open = !mine.parentElement.classList.contains("known");
    });
  };

  const choose = (place, value) => {
    const radios = all(".choose input", place);
    const radio = radios.find((each) => each.value === value);
    if (!radio) return;
    radio.checked = true;
    one("[data-name]", place).textContent = radio.dataset.name;
    one("[data-on]", place).textContent = radio.dataset.on;
    all("[data-option]", place).forEach((box, index) => { box.hidden = String(index) !== value; });
  };

  const typedIn = (input) => {
    const field = input.dataset.field;
    const set = input.closest("[data-key]"), kind = input.closest("[data-kind]");
    const wrong = marked(input, checks[field]);
    if (set) {
      kept.sets[set.dataset.key] = { ...kept.sets[set.dataset.key], [field]: input.value };
      all(`[data-key="${set.dataset.key}"] [data-field=${field}]`).forEach((twin) => {
        if (twin === input) return;
        twin.value = input.value;
        marked(twin, checks[field]);
      });
    } else if (kind) {
      kept.kinds[kind.dataset.kind] = { ...kept.kinds[kind.dataset.kind], [field]: input.value };
    } else {
      kept.body = input.value;
    }
    if (!set) document.getElementById("yours-complaint").textContent = wrong;
    keep();
    drawAll();
    if (set && wrong) one("[data-complaint]", set.closest("[data-option]")).textContent = wrong;
  };

  const changeUnit = (unit) => {
    all("[data-kind]").forEach((box) => {
      const now = kept.kinds[box.dataset.kind], before = usual(box);
      const [start, step] = box.dataset[unit].split(" ").map(Number).map(String);
      kept.kinds[box.dataset.kind] = {
        start: now.start === before.start ? start : now.start,
        step: now.step === before.step ? step : now.step,
      };
    });
    kept.unit = unit;
    keep();
    fill();
  };

  document.addEventListener("input", (event) => {
    if (event.target.dataset.field) typedIn(event.target);
  });
  document.addEventListener("change", (event) => {
    const place = event.target.closest("[data-place]");
    if (event.target.name === "unit") changeUnit(event.target.value);
    else if (place && event.target.closest(".choose")) {
      kept.chosen[place.dataset.place] = event.target.value;
      choose(place, event.target.value);
      keep();
    }
  });
  document.getElementById("clear").addEventListener("click", () => {
    kept = empty();
    try {
      localStorage.removeItem(data.name);
      said.textContent = "All you typed is gone from this device.";
    } catch (error) {
      said.textContent = `This browser keeps nothing (${error.name}), so there is nothing to clear.`;
    }
    fill();
  });
  addEventListener("beforeprint", () => all(".starting, .careful").forEach((part) => { part.open = true; }));

  all("#yours, .mine, .choose").forEach((part) => { part.hidden = false; });
  all(".starting, #yours details").forEach((part) => { part.open = false; });
  all(".instead").forEach((words) => { words.hidden = true; });
  fill();
})();
