// The page round the view: ticks and values that stay, details that are open on paper, and the view's start.

/** Ticks and values, kept under the title of the packet; without a store they last as long as the page. */
function keepEntries() {
  const key = (field) => {
    const section = field.closest("section")?.id ?? "";
    return `packet\n${document.title}\n${section}\n${field.dataset.keep}`;
  };
  let store = null;
  try {
    store = window.localStorage;
  } catch {
    return;
  }
  for (const field of document.querySelectorAll("[data-keep]")) {
    const isTick = field.type === "checkbox";
    try {
      const kept = store.getItem(key(field));
      if (kept !== null && isTick) {
        field.checked = kept === "yes";
      } else if (kept !== null) {
        field.value = kept;
      }
    } catch {
      return;
    }
    field.addEventListener("change", () => {
      const value = isTick ? (field.checked ? "yes" : "") : field.value;
      try {
        if (value === "") {
          store.removeItem(key(field));
        } else {
          store.setItem(key(field), value);
        }
      } catch {
        // a full or closed store: the entry stays on the page
      }
    });
  }
}

function openOnPaper() {
  let closed = [];
  addEventListener("beforeprint", () => {
    closed = [...document.querySelectorAll("details:not([open])")];
    closed.forEach((it) => it.setAttribute("open", ""));
  });
  addEventListener("afterprint", () => closed.forEach((it) => it.removeAttribute("open")));
}

keepEntries();
openOnPaper();
let canShow = false;
try {
  canShow = startViewer();
} catch (error) {
  console.warn("The 3D view cannot be shown:", error);
}
document.documentElement.classList.toggle("with-view", canShow);
