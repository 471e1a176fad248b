// The door: the passphrase, where the page is shared on a network.
document.getElementById('enter').addEventListener('submit', async (event) => {
  event.preventDefault();
  const passphrase = document.getElementById('passphrase').value;
  const answer = await fetch('/enter', { method: 'POST', body: passphrase, redirect: 'manual' });
  if (answer.type === 'opaqueredirect') return location.replace('/');
  const told = await answer.json().catch(() => null);
  document.getElementById('answer').textContent = told?.error?.sentence ?? 'The program does not answer.';
});
