// Hides the pages that do not match while somebody types. Without it the list is whole.
(() => {
  'use strict';
  const field = document.getElementById('find');
  const found = document.getElementById('found');
  const groups = [...document.querySelectorAll('.group')];

  // Small letters without their marks: "Ajüste" is found by "ajuste".
  const plain = (text) =>
    text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().replaceAll('ß', 'ss');

  const pages = [...document.querySelectorAll('.index li')].map((item) => ({
    item,
    words: plain(item.textContent),
  }));

  const say = (count) => {
    const { none, one, many } = found.dataset;
    if (count === 0) return none;
    return count === 1 ? one : many.replace('#', count);
  };

  const search = () => {
    const wanted = plain(field.value).split(/\s+/).filter(Boolean);
    let count = 0;
    for (const { item, words } of pages) {
      item.hidden = !wanted.every((word) => words.includes(word));
      if (!item.hidden) count += 1;
    }
    for (const group of groups) group.hidden = !group.querySelector('.index li:not([hidden])');
    found.textContent = wanted.length ? say(count) : '';
  };

  field.closest('.find').hidden = false;
  field.addEventListener('input', search);
  // A browser that comes back to the page fills the field in again.
  window.addEventListener('pageshow', search);
})();
