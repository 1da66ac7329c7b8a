// Comfort only: the pages do all that they do without this.
"use strict";

// What is typed is kept in this browser until the page says that the crib has it.
const drafts = {
  name: (form) => "crib " + form.dataset.keep,
  fields: (form) => [...form.elements].filter((one) => one.name && one.type !== "hidden" && one.type !== "submit"),
  save(form) {
    const typed = {};
    for (const one of drafts.fields(form)) {
      const value = one.type === "checkbox" ? one.checked : one.value;
      const was = one.type === "checkbox" ? one.defaultChecked : one.defaultValue;
      if (one.tagName === "SELECT" ? !one.selectedOptions[0]?.defaultSelected : value !== was) typed[one.name] = value;
    }
    if (Object.keys(typed).length) localStorage.setItem(drafts.name(form), JSON.stringify(typed));
    else localStorage.removeItem(drafts.name(form));
  },
  restore(form) {
    const typed = JSON.parse(localStorage.getItem(drafts.name(form)) || "{}");
    let restored = 0;
    for (const one of drafts.fields(form)) {
      if (!(one.name in typed) || (one.type !== "checkbox" && one.defaultValue)) continue;
      if (one.type === "checkbox") one.checked = typed[one.name];
      else one.value = typed[one.name];
      restored += 1;
    }
    if (!restored) return;
    const note = document.createElement("p");
    note.className = "told";
    note.setAttribute("role", "status");
    note.textContent = "What you had typed here before is still in the form.";
    form.prepend(note);
  },
};

function guarded(does) {
  try { does(); } catch (error) { console.warn("crib:", error); }
}

guarded(() => {
  const has = document.body.dataset.has;
  if (has) localStorage.removeItem("crib " + has);
});

for (const form of document.querySelectorAll("form[data-keep]")) {
  guarded(() => drafts.restore(form));
  form.addEventListener("input", () => guarded(() => drafts.save(form)));
}

// The picture follows what is typed.
for (const form of document.querySelectorAll("form[data-picture]")) {
  const place = document.getElementById("picture");
  let waiting = 0, asked = 0;
  const redraw = async () => {
    const mine = ++asked;
    const typed = new URLSearchParams([...new FormData(form)].filter(([name, text]) => name !== "token" && text));
    try {
      const answer = await fetch(form.dataset.picture + "?" + typed);
      if (!answer.ok || mine !== asked) return;
      const drawn = new DOMParser().parseFromString(await answer.text(), "text/html");
      place.replaceChildren(...drawn.body.childNodes);
    } catch (error) { /* the picture stays as it is; the answer draws it anew */ }
  };
  form.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(redraw, 250); });
  // What was typed before this ran, or was restored, is drawn too.
  const typed = [...form.elements].some((one) => one.tagName === "INPUT" && one.value !== one.defaultValue);
  if (typed || form.querySelector(".told[role=status]")) redraw();
}

// A box that is ticked is kept at once; where that fails the button under the sheet does it.
for (const form of document.querySelectorAll("form[data-ticks]")) {
  const says = document.getElementById("ticked");
  let queue = Promise.resolve();
  form.querySelector(".keep button").hidden = true;
  form.addEventListener("change", (event) => {
    if (event.target.name !== "box") return;
    const { value, checked } = event.target;
    const typed = new URLSearchParams({ token: form.elements.token.value, quietly: "yes", [checked ? "box" : "before"]: value });
    queue = queue.then(async () => {
      const answer = await fetch(form.action, { method: "POST", body: typed });
      if (!answer.ok) throw new Error(answer.status);
      const { ticked } = await answer.json();
      form.elements.before.value = ticked.join(" ");
      says.textContent = ticked.length + " of " + form.querySelectorAll("[name=box]").length + " ticked";
    }).catch(() => {
      says.textContent = "Not kept: the bench page doesn't answer.";
      form.querySelector(".keep button").hidden = false;
    });
  });
}

// A long answer says that it is at work.
for (const form of document.querySelectorAll("form[data-takes-long]")) {
  form.addEventListener("submit", () => {
    const button = form.querySelector("button.lead");
    button.setAttribute("aria-busy", "true");
    button.textContent = form.dataset.takesLong;
  });
}
