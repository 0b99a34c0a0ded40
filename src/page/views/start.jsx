// The first view: what do you want to make?
import { useState } from "preact/hooks";
import { examples } from "../library.js";
import { textOf } from "../keep/files.js";
import { inLibrary, readFolder } from "../keep/folder.js";
import { unzip } from "../keep/zip.js";
import * as store from "../keep/store.js";
import { begin, changed, resume, setOverlay, state, tell } from "../state.js";
import { openSeason } from "../season.js";
import { read, valueAt } from "../text/edit.js";
import { columnOf, readTable } from "../text/table.js";
import { More, Heading, foreign, useKnown } from "./parts.jsx";
import { go } from "./go.js";
import { language, t } from "../text/language.js";
import { spoken } from "../text/words.js";



/** Sheets in the reader's language, said in the trip itself. */
const spokenLine = () => (language() === "en" ? "" : `language: ${language()}\n`);

const newTrip = () => `title: ${t("Our trip")}
${spokenLine()}menu: boil only
camps:
  - name: ${t("First camp")}
`;

const newLesson = () => `kind: lesson
title: ${t("Our lesson")}
${spokenLine()}place: outdoors
water_treatment: tap
stations:
  - name: ${t("One")}
    stove: canister on top
    pots:
      - aluminium 1.5 L
menu:
  supper:
    boil: 0.2 L                            # ${t("a mug of tea each: enough to practise on")}
course:
  minutes: 120
`;

export function Start() {
  const { library, commands, folder } = useKnown();
  const [works, setWorks] = useState(() => store.works());
  const fresh = (name, text) => {
    begin({ name, text });
    if (spokenLine()) tell(t("Its sheets come in this language. To change that: Paper and units, at the end of the questions."));
    go("form");
  };
  return (
    <>
      <Heading>{t("What do you want to make?")}</Heading>
      <ul class="choices">
        <li><button type="button" onClick={() => fresh("trip.yaml", newTrip())}><b>{t("A trip")}</b><span>{t("Six questions give the whole packet: cards, lists, fuel, briefing.")}</span></button></li>
        <li><button type="button" onClick={() => fresh("lesson.yaml", newLesson())}><b>{t("A lesson")}</b><span>{t("An evening or a day with stoves: the clock, handouts, a skills check.")}</span></button></li>
        <li><button type="button" onClick={() => go("practice")}><b>{t("Practice")}</b><span>{t("Problems with fuel, boiling and canisters, and their worked key.")}</span></button></li>
        {commands.has("season") && <li><button type="button" onClick={() => go("season")}><b>{t("A season")}</b><span>{t("A table with a departure a row: all their packets, the day lists, what is still missing.")}</span></button></li>}
        {commands.has("shelf") && <li><button type="button" onClick={() => go("shelf")}><b>{t("The shelf")}</b><span>{t("Part-used canisters: what is in them, and labels.")}</span></button></li>}
        <li><button type="button" onClick={() => go("library")}><b>{t("The library")}</b><span>{t("What the sheets say, its rules and sources, and your group's own words.")}</span></button></li>
      </ul>
      <h2>{t("Open")}</h2>
      <Opener />
      {folder && <Folder folder={folder} />}
      {works.length > 0 && (
        <section aria-labelledby="kept">
          <h2 id="kept">{t("Go on with")}</h2>
          <p class="hint">{t("Kept in this browser, on this device. A browser may empty its store: what must last is saved to a file.")}</p>
          <ul class="list-of">
            {works.map((work) => (
              <li key={work.id}>
                <a href="#form" onClick={() => resume(work)}>{titleOf(work)}</a>
                <small> {work.name}{work.when ? `, ${new Date(work.when).toLocaleString(language())}` : ""}{`, ${work.text === work.saved ? t("saved to a file") : t("not saved to a file")}`}</small>
                <button type="button" class="quiet" onClick={() => { store.forget(work.id); setWorks(store.works()); }}>{t("Take away {what}", { what: <span class="unseen">{titleOf(work)}</span> })}</button>
              </li>
            ))}
          </ul>
        </section>
      )}
      <h2>{t("Look at an example")}</h2>
      {!library && <p class="hint">{t("The library is being read.")}</p>}
      <ul class="list-of">
        {library && examples(library.files).map((one) => (
          <li key={one.name}><a href="#form" lang={foreign()} onClick={() => begin({ name: one.name, text: one.text, saved: one.text })}>{one.title}</a> <small>{spoken(one.kind)}</small></li>
        ))}
      </ul>
      <More title={t("What this is, and what it is not")}>
        <p>{t("One file that holds the whole program. It asks nothing of any network, and nothing that you write leaves this device unless you send it.")}</p>
        <p>{t("The papers print the usual cautions. They never replace the land manager's current rules, the maker's instructions or trained first aid. Fuel figures are assumptions until you have measured your own stove.")}</p>
      </More>
    </>
  );
}

function titleOf(work) {
  const title = valueAt(read(work.text), ["title"]);
  return typeof title === "string" && title ? title : work.name;
}

/** Opens files: by the button, or dropped on it. */
export function Opener() {
  const open = async (files) => {
    for (const file of files) await openFile(file);
  };
  return (
    <div class="drop" onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => { event.preventDefault(); open(event.dataTransfer.files); }}>
      <p>
        <label class="button" for="open-file">{t("Open a file")}</label>
        <input id="open-file" class="unseen" type="file" accept=".yaml,.yml,.zip,.txt,.csv,.tsv"
          onChange={(event) => { open([...event.target.files]); event.target.value = ""; }} />
        <span class="hint"> {t("a trip or lesson (.yaml), a season's table (.csv), or a library of your group (.zip)")}</span>
      </p>
      <p>
        <label class="button" for="open-folder">{t("Open a folder")}</label>
        <input id="open-folder" class="unseen" type="file" webkitdirectory onChange={(event) => { openFolder([...event.target.files]); event.target.value = ""; }} />
        <span class="hint"> {t("trips, with your group's library beside them")}</span>
      </p>
    </div>
  );
}

/** A folder: its one trip is opened, of several the reader chooses; what its library says is laid over each. */
async function openFolder(files) {
  const found = await readFolder(files);
  const { name, trips, overlay, left } = found;
  if (trips.length === 0 && Object.keys(overlay).length === 0) {
    tell(`${t("In {folder} is neither a trip file (.yaml) nor a folder content.", { folder: name || t("that folder") })} ${left.join(" ")}`.trim(), "trouble");
    return;
  }
  if (trips.length === 1) {
    beginWith(trips[0], overlay);
    go("form");
  } else if (trips.length === 0) {
    layOver(name, overlay);
  } else {
    changed({ folder: found });
    go("start");
  }
  if (left.length) tell(left.join(" "), "trouble");
}

function beginWith({ name, text }, overlay) {
  begin({ name, text, saved: text, overlay });
}

function Folder({ folder }) {
  const many = Object.keys(folder.overlay).length;
  return (
    <section aria-labelledby="folder">
      <h2 id="folder">{t("In the folder {name}", { name: folder.name })}</h2>
      {many > 0 && <p class="hint">{t("The library of your group that lies there is laid over each.")}</p>}
      <ul class="list-of">{folder.trips.map((one) => <li key={one.name}><a href="#form" onClick={() => beginWith(one, folder.overlay)}>{titleOf(one)}</a> <small>{one.name}</small></li>)}</ul>
    </section>
  );
}

export async function openFile(file) {
  const opened = await textOf(file);
  if (opened.why) {
    tell(opened.why, "trouble");
  } else if (opened.bytes) {
    openLibrary(opened);
  } else if (/\.(csv|tsv)$/i.test(opened.name)) {
    openTable(opened);
  } else {
    begin({ name: /\.ya?ml$/i.test(opened.name) ? opened.name : `${opened.name}.yaml`, text: opened.text, saved: opened.text });
    go("form");
  }
}

/** A table goes where tables of its kind are worked on. */
function openTable({ name, text }) {
  const heads = readTable(text).rows[0]?.cells ?? [];
  if (columnOf(heads, "departure") >= 0 && !heads.includes("action")) {
    const why = openSeason(name, text);
    if (why) tell(why, "trouble");
    go("season");
  } else if (heads.includes("tag") && heads.includes("action")) {
    tell(t("{name} is a shelf of canisters: open it here, where it is worked on.", { name }));
    go("shelf");
  } else {
    tell(t("{name} is a table, but of no kind that is known here: a season has a column departure, a shelf columns tag and action.", { name }), "trouble");
  }
}

/** A library of a group: laid over the built-in one for the work in hand. */
function openLibrary({ name, bytes }) {
  try {
    const overlay = {};
    for (const [path, content] of Object.entries(unzip(bytes))) {
      const inside = inLibrary(path);
      if (inside) overlay[inside] = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(content);
    }
    if (Object.keys(overlay).length === 0) throw new Error(t("no folder `content` in it"));
    layOver(name, overlay);
  } catch (error) {
    tell(t("{name} could not be opened: {message}", { name, message: error.message }), "trouble");
  }
}

function layOver(name, overlay) {
  if (!state.work) begin({ name: "trip.yaml", text: newTrip() });
  setOverlay(overlay);
  tell(t("{name} is laid over the library of this piece of work.", { name }));
  go("library");
}
