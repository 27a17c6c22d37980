"use strict";
// Shows the rows that hold every word of the search field; paper always gets all of them.
(() => {
  const field = document.getElementById("find");
  const told = document.getElementById("told");
  const rows = [...document.querySelectorAll(".row")].map((row) => [row, null]);
  const textOf = (pair) => (pair[1] ??= pair[0].textContent.toLowerCase().replace(/\s+/g, " "));
  const find = () => {
    const words = field.value.toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    for (const pair of rows) {
      const fits = words.every((word) => textOf(pair).includes(word));
      pair[0].classList.toggle("out", !fits);
      shown += fits ? 1 : 0;
    }
    document.body.classList.toggle("finding-rows", words.length > 0);
    told.textContent = words.length ? `${shown} of ${rows.length} rows` : "";
  };
  field.addEventListener("input", find);
  find();
})();
