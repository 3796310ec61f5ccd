// The name of what the pointer or the focus is on, beside it: the rail itself is too narrow for names.
let tip = null;
function show(e) {
  const on = e.target.closest?.("[data-tip]");
  if (!on || !on.closest(".rail") || getComputedStyle(on.querySelector(".reel-name") ?? on).position !== "absolute") { hide(); return; }
  tip ??= document.body.appendChild(Object.assign(document.createElement("div"), { className: "tip", ariaHidden: "true" }));
  tip.textContent = on.dataset.tip;
  const box = on.getBoundingClientRect(), rail = on.closest(".rail").getBoundingClientRect();
  tip.hidden = false;
  const upright = rail.height > rail.width, left = rail.left < innerWidth / 2;
  tip.style.top = upright ? `${box.top + box.height / 2 - tip.offsetHeight / 2}px` : `${box.top - tip.offsetHeight - 6}px`;
  tip.style.left = upright ? left ? `${rail.right + 6}px` : `${rail.left - tip.offsetWidth - 6}px` : `${Math.max(6, Math.min(innerWidth - tip.offsetWidth - 6, box.left))}px`;
}
function hide() { if (tip) tip.hidden = true; }
for (const name of ["pointerover", "focusin"]) document.addEventListener(name, show);
for (const name of ["pointerdown", "focusout"]) document.addEventListener(name, hide);

// The choices at the chair close on Esc, the focus back on their word, and when something else is touched.
const opened = () => document.querySelector(".chair-more[open]");
document.addEventListener("keydown", (e) => {
  const over = e.key === "Escape" && opened();
  if (!over) return;
  over.open = false;
  over.querySelector("summary").focus();
}, true);
document.addEventListener("pointerdown", (e) => {
  const over = opened();
  if (over && !over.contains(e.target)) over.open = false;
}, true);

// Files dropped where there is a button that takes files in go its way.
const taker = (e) => e.dataTransfer?.types.includes("Files") ? e.target.closest?.("[data-takes]") : null;
document.addEventListener("dragover", (e) => {
  const place = taker(e);
  if (!place) return;
  e.preventDefault();
  place.dataset.over = "yes";
});
document.addEventListener("dragleave", (e) => {
  const place = taker(e);
  if (place && !place.contains(e.relatedTarget)) delete place.dataset.over;
});
document.addEventListener("drop", (e) => {
  const place = taker(e);
  if (!place) return;
  e.preventDefault();
  delete place.dataset.over;
  const input = place.querySelector("input[type=file]");
  input.files = e.dataTransfer.files;
  input.dispatchEvent(new Event("change", { bubbles: true }));
});
