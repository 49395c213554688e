// Reads a question as JSON from its input, prints the answer as JSON.
// {schema: "core" | "failsafe", files: [...]}: each file as that schema of YAML 1.2 reads it, and what is wrong with it.
// {patterns: [...], texts: [...]}: for each pattern, whether each text fits it, by ECMA-262 with the flag u.
import { readFileSync } from 'node:fs';
import { parseDocument } from 'yaml';

function read(path, schema) {
  const document = parseDocument(readFileSync(path, 'utf8'), { version: '1.2', schema });
  return { data: document.toJS(), faults: [...document.errors, ...document.warnings].map(String) };
}

function fits(pattern, texts) {
  const shape = new RegExp(pattern, 'u');
  return texts.map((text) => shape.test(text));
}

const asked = JSON.parse(readFileSync(0, 'utf8'));
const answer = asked.files
  ? asked.files.map((path) => read(path, asked.schema))
  : asked.patterns.map((pattern) => fits(pattern, asked.texts));
process.stdout.write(JSON.stringify(answer));
