// Small pieces that several views are made of.
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { listen, state } from "../state.js";
import { pathOf } from "../text/words.js";
import { decimals, known, language, t } from "../text/language.js";

/** Renders again whenever what the page knows changes. */
export function useKnown() {
  const [, again] = useState(0);
  useLayoutEffect(() => listen(() => again((count) => count + 1)), []);
  return state;
}

/** A view's heading; the focus goes there when the view opens, so that it is read out. */
export function Heading({ children, focus = true }) {
  const here = useRef(null);
  useEffect(() => {
    if (focus && document.body.dataset.moved === "yes") here.current?.focus();
    document.title = `${here.current?.textContent ?? ""} - leeside`;
  }, []);
  return <h1 ref={here} tabIndex={-1}>{children}</h1>;
}

/** A choice that opens: its lines stand one tap away. */
export function More({ title, children, open, count, id }) {
  return (
    <details class="more" open={open} id={id}>
      <summary><span>{title}</span>{count !== undefined && <span class="count">{count}</span>}</summary>
      <div class="inside">{children}</div>
    </details>
  );
}

/** The program's words, with what is to be written set apart: `white gas`. */
export function Words({ text }) {
  return String(text ?? "").split("`").map((part, at) => (at % 2 ? <code>{part}</code> : part));
}

/** The mark of words that are the program's English still, for whoever hears them; none where English is spoken. */
export const foreign = () => (language() === "en" ? undefined : "en");

/** What the program says: in the reader's language where it has words for it, else marked as English. */
export function Told({ text }) {
  const said = String(text ?? "");
  return known(said) ?? known(said.replace(/[-_]/g, " ")) ?? (/[a-z]{3}/i.test(said) ? <span lang="en">{said}</span> : decimals(said));
}

/** A problem in the program's words. */
export function ProblemText({ problem }) {
  return (
    <>
      <Words text={problem.message} />
      {problem.help && <span class="help"><Words text={problem.help} /></span>}
    </>
  );
}

export function idOf(path) {
  return `field-${path}`;
}

/** Brings a field into view and puts the focus into it; opens what hides it. */
export function goTo(path) {
  const steps = pathOf(path);
  for (let length = steps.length; length > 0; length -= 1) {
    const wanted = idOf(textOf(steps.slice(0, length)));
    const field = document.getElementById(wanted);
    if (!field) continue;
    for (let box = field.closest("details"); box; box = box.parentElement.closest("details")) box.open = true;
    const target = field.matches("input, select, textarea, button") ? field : field.querySelector("input, select, textarea, button, summary");
    (target ?? field).focus();
    (target ?? field).scrollIntoView({ block: "center" });
    return true;
  }
  return false;
}

function textOf(path) {
  return path.map((step, at) => (typeof step === "number" ? `[${step}]` : `${at ? "." : ""}${step}`)).join("");
}

/** A window over the page for one thing; Escape closes it. */
export function Window({ title, onClose, children }) {
  const here = useRef(null);
  useEffect(() => {
    const before = document.activeElement;
    here.current.showModal();
    return () => before?.focus?.();
  }, []);
  return (
    <dialog ref={here} aria-labelledby="window-title" onClose={onClose}>
      <h2 id="window-title">{title}</h2>
      {children}
      <p><button type="button" onClick={() => here.current.close()}>{t("Close")}</button></p>
    </dialog>
  );
}

/** The library's prose, which is a small part of Markdown: headings, lists, strong words. */
export function Prose({ text, children }) {
  const blocks = String(text ?? "").trim().split(/\n\s*\n/).flatMap((block) => block.split(/\n(?=#{2,4} )|(?<=^#{2,4} .*)\n/));
  return <div class="prose">{blocks.map(block)}{children}</div>;
}

function block(text) {
  const heading = text.match(/^#{2,4} (.*)$/);
  if (heading) return <h3>{heading[1]}</h3>;
  if (/^\s*(-|\d+\.) /.test(text)) {
    const items = text.split(/\n(?=\s*(?:-|\d+\.) )/).map((item) => <li>{strong(item.replace(/^\s*(-|\d+\.) /, ""))}</li>);
    return /^\s*-/.test(text) ? <ul>{items}</ul> : <ol>{items}</ol>;
  }
  return <p>{strong(text)}</p>;
}

function strong(text) {
  return text.replace(/\s+/g, " ").split("**").map((part, at) => (at % 2 ? <b>{part}</b> : part));
}
