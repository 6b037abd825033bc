// Loaded into Electron's main process before the app: prints when the window is shown, and when the
// page holds what is waited for (the text of a heading, or nothing for an empty page) and has been
// painted with it. With PLAYWORN_BENCH_IDLE (milliseconds) it stays that long, and says what it takes
// of the processor meanwhile.
const { app } = require('electron');

const heading = process.env.PLAYWORN_BENCH_HEADING;
const print = (what, value) => process.stdout.write(`bench ${what} ${value}\n`);

print('node-api', process.versions.napi);
app.on('browser-window-created', (_event, window) => {
  const shown = new Promise(resolve => {
    window.once('show', () => {
      print('shown', Date.now());
      resolve();
    });
  });
  const filled = new Promise(resolve => {
    window.webContents.once('dom-ready', async () => {
      if (heading)
        await window.webContents.executeJavaScript(
          `new Promise(done => {
            const look = () => [...document.querySelectorAll('h2')].some(found => found.textContent === ${JSON.stringify(heading)});
            const watch = new MutationObserver(() => look() && (watch.disconnect(), painted()));
            const painted = () => requestAnimationFrame(() => setTimeout(done));
            if (look()) painted();
            else watch.observe(document, { subtree: true, childList: true, characterData: true });
          })`,
        );
      resolve();
    });
  });
  Promise.all([shown, filled]).then(() => {
    print('filled', Date.now());
    const idle = Number(process.env.PLAYWORN_BENCH_IDLE ?? 0);
    if (idle === 0) return app.quit();
    // Once it has come to rest: the share of one processor that all its processes take while nothing is done.
    setTimeout(() => {
      app.getAppMetrics();
      setTimeout(() => {
        const share = app.getAppMetrics().reduce((sum, { cpu }) => sum + cpu.percentCPUUsage, 0);
        print('idle', Math.round(share * 1000));
        app.quit();
      }, idle);
    }, idle);
  });
});
