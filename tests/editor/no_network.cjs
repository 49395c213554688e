// Loaded into a program before its own code: every way out to a network ends here, and is told on the error output.
const net = require('net');
const dns = require('dns');
const refuse = (way) => function () {
  process.stderr.write(`network: ${way}\n`);
  throw new Error(`no network: ${way}`);
};
net.Socket.prototype.connect = refuse('connect');
dns.lookup = refuse('lookup');
dns.promises.lookup = refuse('lookup');
