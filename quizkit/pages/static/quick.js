/* Makes things quicker, and nothing more: every page works the same without it.
   A form marked data-quick is sent in the background and the page that comes back is put in place; when the server is
   away, that is said and what was typed stays. A form marked data-judge shows its judges while it is filled in.
   The calculator tells its result beside the question. */
import { drop, keep, takeUp, wipe } from "./kept.js";

const PAUSE = 400; // milliseconds without a key before a sheet is judged

document.addEventListener("submit", (event) => {
  const form = event.target;
  const pressed = event.submitter;
  if (form.matches(".sign-out")) wipe();
  if (pressed?.value === "reckon") {
    event.preventDefault();
    reckon(form);
  } else if (form.matches("[data-quick]")) {
    event.preventDefault();
    send(form, pressed);
  } else if (form.matches("[data-kept]")) {
    drop(form);
  }
});

document.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || event.target.name !== "sum" || !event.target.form?.matches("[data-quick]")) return;
  event.preventDefault();
  reckon(event.target.form);
});

document.addEventListener("input", (event) => {
  const form = event.target.form;
  if (!form) return;
  if (form.matches("[data-kept]")) keep(form);
  if (form.matches("[data-judge]") && /^(measure\.|material$)/.test(event.target.name)) {
    clearTimeout(form.waits);
    form.waits = setTimeout(judge, PAUSE, form);
  }
});

let shown = location.pathname + location.search; // whose page stands here: a jump within it loads nothing
window.addEventListener("popstate", () => {
  if (location.pathname + location.search !== shown) location.reload();
});

async function post(form, name, value) {
  const fields = new FormData(form);
  if (name) fields.set(name, value);
  const answer = await fetch(form.action, { method: "POST", body: fields });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (!page.querySelector("#page")) throw new Error("no page of ours");
  return [answer, page];
}

async function send(form, pressed) {
  if (form.dataset.sent) return;
  form.dataset.sent = "yes";
  clearTimeout(form.waits);
  try {
    const [answer, page] = await post(form, pressed?.name, pressed?.value);
    if (answer.ok) drop(form);
    put(page, answer.url);
  } catch {
    tell(form);
  } finally {
    delete form.dataset.sent;
  }
}

function put(page, address) {
  document.title = page.title;
  document.body.replaceChildren(...page.body.childNodes);
  if (address !== location.href) history.pushState(null, "", address);
  shown = location.pathname + location.search;
  takeUp();
  const first = ["[role=alert]", ".verdict", "h1"].map((one) => document.querySelector(`#page ${one}`)).find(Boolean);
  first.tabIndex = -1;
  first.focus();
  first.scrollIntoView({ block: "center" });
}

async function judge(form) {
  const place = form.querySelector("#judged");
  try {
    const [, page] = await post(form, "do", "judge");
    const judged = page.querySelector("#judged");
    if (judged && form.isConnected) place.replaceChildren(...judged.childNodes);
  } catch {
    tell(form);
  }
}

async function reckon(form) {
  const place = document.querySelector(".reckoned"); // it belongs to the form and stands beside it
  const typed = form.elements.sum.value;
  try {
    const answer = await fetch(`/reckon?as=text&sum=${encodeURIComponent(typed)}`);
    const words = (await answer.text()).trim();
    place.textContent = answer.ok && words && !words.startsWith("≈") ? `= ${words}` : words;
    for (const look of ["big", "num"]) place.classList.toggle(look, answer.ok);
  } catch {
    place.textContent = document.body.dataset.away;
  }
}

function tell(form) {
  let place = form.querySelector(".away-note");
  if (!place) {
    place = document.createElement("p");
    place.className = "fault away-note";
    place.setAttribute("role", "alert");
    form.append(place);
  }
  place.textContent = document.body.dataset.away;
}

takeUp();
