// A record as YAML that reads back as it was meant: the twin of the builder's writing.py.
"use strict";

const spanbookYaml = (() => {
  const isMap = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

  function inline(value) {
    if (typeof value === "boolean" || typeof value === "number") return String(value);
    if (typeof value === "string") return JSON.stringify(value);
    if (Array.isArray(value) && value.every((item) => typeof item === "number")) return `[${value.join(", ")}]`;
    return null;
  }

  function block(value) {
    if (isMap(value)) return mapping(value);
    return value.flatMap((item) => {
      const lines = inline(item) === null ? block(item) : [inline(item)];
      return lines.map((line, i) => (i ? "  " : "- ") + line);
    });
  }

  function mapping(value) {
    return Object.entries(value).flatMap(([key, below]) => {
      const line = inline(below);
      return line === null ? [`${key}:`, ...block(below).map((one) => `  ${one}`)] : [`${key}: ${line}`];
    });
  }

  return (value, schema) => (schema ? `# yaml-language-server: $schema=${schema}\n` : "") + mapping(value).map((line) => `${line}\n`).join("");
})();
