// Stands in for the data service, and needs nothing that an older Electron lacks: answers what
// comes over its port.
process.parentPort.on('message', event => {
  if (event.data.kind === 'close') process.exit(0);
  const [port] = event.ports;
  if (event.data.kind !== 'connect' || !port) return;
  port.on('message', ({ data }) => {
    if (data.ping) port.postMessage({ pong: data, pid: process.pid, type: process.type });
  });
  port.start();
});
