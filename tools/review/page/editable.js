// Words that can be edited where they stand: a button opens a field, what is saved is a new entry of the ledger.
import { el, fill } from './dom.js';
import { say } from './outbox.js';
import { t } from './words.js';

let fields = 0;

// `show`: how the words look when they are not being edited. `save(text)` gives [path, body]. Resolves nothing: when
// the program has it, `done` is called; when it refuses, its sentence stands beside the field.
export function editable({ name, value, show, save, done, long = false }) {
  const node = el('span.editable');
  const closed = (focus) => {
    const open = el('button.small.quiet', { type: 'button', onclick: opened, 'aria-label': t('Edit {name}', { name }) }, t('Edit'));
    fill(node, show(value), ' ', open);
    if (focus) open.focus();
  };
  const opened = () => {
    const id = `edit-${++fields}`, told = el('span.why', { role: 'status' });
    const input = el(long ? 'textarea' : 'input', { id, maxlength: long ? '4000' : '80', autocomplete: 'off', ...(long ? { rows: '3' } : {}) });
    input.value = value;
    const keep = async (event) => {
      event.preventDefault();
      const text = input.value.replace(/\s+/g, ' ').trim();
      told.textContent = t('Saving…');
      try {
        await say(...save(text));
        value = text;
        closed(true);
        done?.(text);
      } catch (error) {
        told.textContent = error.message;
        told.classList.add('problem');
      }
    };
    const form = el('form.form', { onsubmit: keep, onkeydown: (event) => { if (event.key === 'Escape') { event.stopPropagation(); closed(true); } } },
      el('label', { for: id }, name), input, el('button', { type: 'submit' }, t('Save')),
      el('button.quiet', { type: 'button', onclick: () => closed(true) }, t('Leave it')), told);
    fill(node, form);
    input.focus();
  };
  closed(false);
  return node;
}
