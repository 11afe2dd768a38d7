// What a browser can count about a page as it is shown: contrast, edges, targets, names.
(() => {
  const seen = (one) => one.checkVisibility() && !one.closest('.hidden, .skip-link');
  const brief = (one) => (one.innerText || one.getAttribute('aria-label') || one.name || one.tagName).trim().slice(0, 40);
  const parts = (colour) => (colour.match(/[\d.]+/g) ?? [0, 0, 0, 0]).map(Number);
  const light = (colour) => {
    const [r, g, b] = parts(colour).map((v) => v / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ratio = (a, b) => {
    const [low, high] = [light(a), light(b)].sort((x, y) => x - y);
    return (high + 0.05) / (low + 0.05);
  };
  const clear = (colour) => colour === 'transparent' || (parts(colour)[3] ?? 1) === 0;
  const ground = (one) => {
    for (let at = one; at; at = at.parentElement) {
      const colour = getComputedStyle(at).backgroundColor;
      if (!clear(colour)) return colour;
    }
    return 'rgb(255, 255, 255)';
  };

  window.paleText = () => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const found = new Set();
    while (walker.nextNode()) {
      const one = walker.currentNode.parentElement;
      if (!walker.currentNode.data.trim() || !seen(one) || one.closest('script, style, title, option')) continue;
      const style = getComputedStyle(one);
      const colour = one.closest('svg') ? style.fill : style.color;
      const found_ratio = ratio(colour, ground(one));
      if (found_ratio < 7) found.add(`${brief(one)}: ${found_ratio.toFixed(1)}`);
    }
    return [...found];
  };

  window.paleEdges = () => [...document.querySelectorAll('button, .button, input, select, textarea, .keys span')]
    .filter((one) => seen(one) && !one.disabled && parseFloat(getComputedStyle(one).borderTopWidth) > 0)
    .filter((one) => !one.matches('.keys input'))
    .map((one) => [one, ratio(getComputedStyle(one).borderTopColor, ground(one.parentElement))])
    .filter(([, found]) => found < 4.5)
    .map(([one, found]) => `${brief(one)}: ${found.toFixed(1)}`);

  window.tooNear = (least) => {
    const boxes = [...document.querySelectorAll('button, a, summary, select, input, textarea')]
      .filter((one) => seen(one) && one.type !== 'hidden' && !(one.closest('p, li, h2') && one.matches('.plain')))
      .map((one) => [one, one.getBoundingClientRect(), getComputedStyle(one.closest('.foot.hands, .foot') ?? one).position]);
    const found = [];
    boxes.forEach(([one, a, held], i) => {
      for (const [other, b, heldToo] of boxes.slice(i + 1)) {
        if (one.contains(other) || held !== heldToo) continue;
        const x = Math.max(a.left, b.left) - Math.min(a.right, b.right);
        const y = Math.max(a.top, b.top) - Math.min(a.bottom, b.bottom);
        if (Math.max(x, y) < least - 0.5) found.push(`${brief(one)} | ${brief(other)}: ${Math.round(Math.max(x, y))}`);
      }
    });
    return found;
  };

  window.nameless = () => [...document.querySelectorAll('svg')]
    .filter((one) => seen(one) && one.getAttribute('aria-hidden') !== 'true' && !one.closest('[aria-hidden=true]'))
    .filter((one) => one.getAttribute('role') !== 'img' || !(one.getAttribute('aria-label') || document.getElementById(one.getAttribute('aria-labelledby'))?.textContent))
    .map((one) => one.outerHTML.slice(0, 80));

  window.lowClosers = () => [...document.querySelectorAll('.closing button, .foot > .button, .foot > button')]
    .filter((one) => one.getBoundingClientRect().height < 64).map(brief);
  window.over = () => document.documentElement.scrollWidth - innerWidth;
})()
