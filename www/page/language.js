// The language of the page. English is what page and program say by themselves. For another one there is a catalogue: the
// program looks up in it what it puts together, and here all else is looked up, what the page declares as well as what
// the program puts into it in English.

/** Where the choice is kept in this browser. */
const kept = 'halfbreadth.language';

/** The attributes whose text people see or hear. */
const attributes = ['title', 'aria-label', 'placeholder', 'alt', 'data-off', 'data-on'];

/** How long a choice waits for the last change to be kept, ms. */
const patience = 2000;

/** Begins the page in the language that was chosen, else in the first of the browser's that it has. */
export async function beginLanguage() {
  const select = document.querySelector('[data-language]');
  const known = [...select.options].map((option) => option.value);
  const wanted = [stored(), ...navigator.languages.map((tag) => tag.split('-')[0])];
  const code = wanted.find((wish) => known.includes(wish)) ?? 'en';
  select.value = code;
  select.addEventListener('change', () => choose(select));
  const catalogue = code === 'en' ? undefined : await load(code);
  if (catalogue === undefined) {
    select.value = 'en';
    return undefined;
  }
  document.documentElement.lang = code;
  lookUp(JSON.parse(catalogue));
  return { code, catalogue };
}

function stored() {
  try {
    return localStorage.getItem(kept);
  } catch {
    return null; // a closed storage loses nothing but the choice
  }
}

/** The catalogue of a language: packed inside the page, where all of it is one file, else beside it. */
async function load(code) {
  const inside = document.getElementById(`language-${code}`);
  if (inside) {
    const packed = Uint8Array.from(atob(inside.textContent), (letter) => letter.charCodeAt(0));
    return new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'))).text();
  }
  const answer = await fetch(`language/${code}.json`).catch(() => undefined);
  return answer?.ok ? answer.text() : undefined;
}

/** Keeps the choice, and loads the page anew where nothing is lost by it; elsewhere it counts from the next time on. */
async function choose(select) {
  try {
    localStorage.setItem(kept, select.value);
  } catch {
    return;
  }
  const { dataset } = document.body;
  const start = Date.now();
  while (dataset.saved !== dataset.revision && Date.now() - start < patience) {
    await new Promise(requestAnimationFrame);
  }
  const brought = document.querySelector('[data-field=bring-rows]');
  const risks = dataset.saved !== dataset.revision || 'copy' in dataset || brought?.value || brought?.disabled;
  if (risks) {
    document.getElementById('language-later').hidden = false;
  } else {
    location.reload();
  }
}

/** Puts the other text for every English one, in the page as it is and whenever something is put into it. */
function lookUp(catalogue) {
  const texts = new Map(Object.entries(catalogue));
  const other = (text) => texts.get(text.trim().replace(/\s+/g, ' '));
  const isOwn = (element) => element?.closest('[translate=no]');

  function text(node) {
    const found = node.data.trim() && !isOwn(node.parentElement) && other(node.data);
    if (found && found !== node.data) {
      node.data = node.data.replace(/\S(?:[^]*\S)?/, () => found);
    }
  }

  function attribute(element, name) {
    const value = element.getAttribute(name);
    const found = value && !isOwn(element.parentElement) && other(value);
    if (found && found !== value) {
      element.setAttribute(name, found);
    }
  }

  function all(root) {
    if (root.nodeType === Node.TEXT_NODE) {
      text(root);
      return;
    }
    const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
    for (let node = root; node; node = walker.nextNode()) {
      if (node.nodeType === Node.TEXT_NODE) {
        text(node);
      } else {
        for (const name of attributes) {
          attribute(node, name);
        }
      }
    }
  }

  const observer = new MutationObserver((changes) => {
    for (const { type, target, addedNodes, attributeName } of changes) {
      if (type === 'attributes') {
        attribute(target, attributeName);
      } else if (type === 'characterData') {
        text(target);
      } else {
        addedNodes.forEach(all);
      }
    }
    observer.takeRecords(); // what was changed just now is no news
  });
  all(document.body);
  observer.observe(document.body, {
    subtree: true,
    childList: true,
    characterData: true,
    attributes: true,
    attributeFilter: attributes,
  });
}
