// The door: the passphrase, where the page is shared on a network.
import { t } from './words.js';

document.documentElement.lang = t('en');
document.querySelector('h1').textContent = t('This browser is not known yet');
const [before, after] = t('Open the address that {command} printed when it was started; it changes at every start.', { command: '\0' }).split('\0');
document.querySelector('main > p').replaceChildren(before, document.querySelector('code'), after);
document.querySelector('label').firstChild.data = `${t('Or, where the page is shared on a network, the passphrase')}\n`;
document.querySelector('button').textContent = t('Enter');
document.getElementById('enter').addEventListener('submit', async (event) => {
  event.preventDefault();
  const passphrase = document.getElementById('passphrase').value;
  const answer = await fetch('/enter', { method: 'POST', body: passphrase, redirect: 'manual' });
  if (answer.type === 'opaqueredirect') return location.replace('/');
  const told = await answer.json().catch(() => null);
  document.getElementById('answer').textContent = told?.error?.sentence ?? t('The program does not answer.');
});
