/* Makes things quicker, and nothing more: every form works without it. A form marked data-quick is sent in the
   background and the answer put in place; when the server is away, that is said and what was typed stays. */
"use strict";

document.addEventListener("submit", async (event) => {
  const form = event.target;
  if (!form.matches("[data-quick]")) return;
  event.preventDefault();
  const pressed = event.submitter;
  if (form.dataset.sent) return;
  form.dataset.sent = "yes";
  const fields = new FormData(form);
  if (pressed && pressed.name) fields.append(pressed.name, pressed.value);
  try {
    const answer = await fetch(form.action, { method: "POST", body: fields });
    put(await answer.text(), answer.url);
  } catch {
    tell(form, document.body.dataset.away);
  } finally {
    delete form.dataset.sent;
  }
});

window.addEventListener("popstate", () => location.reload());

function put(html, address) {
  const page = new DOMParser().parseFromString(html, "text/html");
  document.title = page.title;
  document.querySelector("#page").replaceWith(page.querySelector("#page"));
  if (address !== location.href) history.pushState(null, "", address);
  const first = document.querySelector("#page [role=alert], #page .verdict, #page h1");
  first.tabIndex = -1;
  first.focus();
  first.scrollIntoView({ block: "center" });
}

function tell(form, words) {
  let place = form.querySelector(".away-note");
  if (!place) {
    place = document.createElement("p");
    place.className = "fault away-note";
    place.setAttribute("role", "alert");
    form.append(place);
  }
  place.textContent = words;
}
