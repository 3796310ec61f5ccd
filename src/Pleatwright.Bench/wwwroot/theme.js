// Runs before the first paint, so that a maker who chose the dark look is not dazzled while the bench loads.
try {
  const chosen = localStorage.getItem("theme");
  if (chosen) document.documentElement.dataset.theme = chosen;
} catch { /* a private window keeps nothing */ }
