/* What was typed and not sent yet, kept in this browser until it is sent, its owner signs out, or a day has passed:
   a wrong tap or a flat battery costs nothing. Secrets, files and the press itself are never kept. */
const DAY = 24 * 3600 * 1000; // milliseconds
const MARK = "kept ";
const NEVER = new Set(["token", "secret", "kept", "do", "sum"]);

const name = (form) => `${MARK}${document.body.dataset.who} ${new URL(form.action).pathname}`;

/** Write down what stands in a form. */
export function keep(form) {
  const fields = [...new FormData(form)].filter(([key, value]) => !NEVER.has(key) && typeof value === "string");
  attempt(() => localStorage.setItem(name(form), JSON.stringify({ at: Date.now(), fields })));
}

/** Forget a form: it was sent. */
export function drop(form) {
  attempt(() => localStorage.removeItem(name(form)));
}

/** Forget all forms: their owner leaves. */
export function wipe() {
  attempt(() => Object.keys(localStorage).filter((key) => key.startsWith(MARK)).forEach((key) => localStorage.removeItem(key)));
}

/** Put what was kept back into the forms of this page, and say so where it differs from what stands there. */
export function takeUp() {
  for (const form of document.querySelectorAll("form[data-kept]")) {
    const kept = attempt(() => JSON.parse(localStorage.getItem(name(form))));
    if (!kept) continue;
    if (Date.now() - kept.at > DAY) drop(form);
    else if (fill(form, kept.fields)) say(form);
  }
}

function fill(form, fields) {
  let changed = false;
  for (const box of form.elements) {
    if (!box.name || NEVER.has(box.name) || box.type === "file" || box.type === "hidden") continue;
    const values = fields.filter(([key]) => key === box.name).map(([, value]) => value);
    if (box.type === "checkbox" || box.type === "radio") {
      const ticked = values.includes(box.value);
      changed ||= ticked !== box.checked;
      box.checked = ticked;
    } else if (values.length && values[0] !== box.value) {
      changed = true;
      box.value = values[0];
    }
  }
  return changed;
}

function say(form) {
  const place = document.createElement("p");
  place.className = "verdict kept-note";
  place.setAttribute("role", "status");
  place.textContent = document.body.dataset.kept;
  form.prepend(place);
}

function attempt(work) {
  try {
    return work();
  } catch {
    return null; // a browser that keeps nothing: the page works all the same
  }
}
