// Real requests, answers or data, to be held against workshop.d.ts: written by
//     UPDATE_ANSWERS=1 cargo test --test engine declared
// Long texts and lists are cut.

export const request0: Protocol.Exchanges["judge"]["request"] = {
  "age": "8-10",
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…",
  "takes": [
    {
      "tempo": "60%"
    }
  ]
};

export const answer0: Protocol.Judged = {
  "findings": [
    {
      "column": 9,
      "hint": "a warm-up rests at least as long as it plays: give some lines longer rests",
      "in": "routine",
      "message": "the routine plays for 27 s and rests for 25 s in between",
      "of": null,
      "row": 2,
      "severity": "warning"
    },
    {
      "column": 13,
      "hint": "`breath` would help after the 1st note, C4",
      "in": "routine",
      "message": "“Four”, as written: from C4, the 1st not…",
      "of": 0,
      "row": 10,
      "severity": "advice"
    },
    {
      "column": 8,
      "hint": "rest at least as long as you play: `rest = \"same\"` and `between = \"same\"`",
      "in": "routine",
      "message": "“Four”: it plays for 13 s and rests for 12 s",
      "of": 0,
      "row": 13,
      "severity": "warning"
    },
    {
      "column": 15,
      "hint": "play it at a faster tempo or softer, or leave out a note: a breath would break the slur",
      "in": "routine",
      "message": "“Tubes”, on 0: from C4, the 1st note, to…",
      "of": 1,
      "row": 18,
      "severity": "advice"
    }
  ],
  "highest": "G4",
  "lowest": "A3",
  "ok": true,
  "playing": 40.0,
  "seconds": 72.8
};

export const request1: Protocol.Exchanges["mend"]["request"] = {
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const answer1: Protocol.Mended = {
  "mended": [
    {
      "mends": [
        {
          "says": "Write tempo instead of tempoo",
          "text": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
        }
      ],
      "problem": {
        "column": 1,
        "hint": "did you mean tempo?",
        "in": "routine",
        "message": "tempoo is not known here",
        "of": null,
        "row": 5,
        "severity": "error"
      }
    }
  ],
  "ok": true
};

export const request2: Protocol.Exchanges["shelf"]["request"] = {
  "instrument": "trombone"
};

export const answer2: Protocol.Shelf = {
  "instruments": [
    "trumpet in B-flat",
    "trumpet in C",
    "trumpet in E-flat",
    "tuba in C"
  ],
  "ok": true,
  "routines": [
    {
      "age": "11-13",
      "level": 0,
      "lines": 9,
      "name": "first-sounds",
      "purpose": "one comfortable note becomes two",
      "seconds": 451.5177033492822,
      "title": "First sounds"
    },
    {
      "age": "11-13",
      "level": 0,
      "lines": 9,
      "name": "first-sounds-b",
      "purpose": "one comfortable note becomes two, another way",
      "seconds": 396.97391304347826,
      "title": "First sounds, the other face"
    },
    {
      "age": "11-13",
      "level": 0,
      "lines": 6,
      "name": "first-sounds-short",
      "purpose": "the sound and its neighbour, for a busy day",
      "seconds": 277.46666666666664,
      "title": "First sounds in five minutes"
    },
    {
      "age": "14-16",
      "level": 5,
      "lines": 8,
      "name": "fifth-steps-short",
      "purpose": "the whole horn, for a busy day",
      "seconds": 308.2322169059011,
      "title": "Fifth steps in five minutes"
    }
  ],
  "scale": [
    "F2",
    "G2",
    "A2",
    "D5"
  ]
};

export const request3: Protocol.Exchanges["choose"]["request"] = {
  "age": "11-13",
  "highest": "G4",
  "lowest": "G4"
};

export const answer3: Protocol.Chosen = {
  "ask": "Before you start, have a word with a tea…",
  "easier": {
    "routine": "first-steps",
    "when": "when in doubt, on a tired day or after a break: what is easy at C4 will soon be easy at G4"
  },
  "next": {
    "routine": "third-steps",
    "when": "when C5 on the open horn comes without effort on most days, which takes weeks to months; nothing is gained by hurrying"
  },
  "note": "G4, second-line G",
  "ok": true,
  "routine": "second-steps",
  "steps": [
    "G4 sounds on 1-3 too, and D4 lies near, …",
    "Then slur them, from G4 down to D4 first, then up again, with the same air.",
    "Then shorten the tube, valve by valve (2…"
  ],
  "title": "Second steps",
  "why": "second-steps (level 2) asks for G4 and w…"
};

export const request4: Protocol.Exchanges["takeDown"]["request"] = {
  "instrument": "trombone",
  "name": "first-steps"
};

export const answer4: Protocol.TakenDown = {
  "leftOut": [],
  "ok": true,
  "text": "# First steps: for a player whose highes…"
};

export const request5: Protocol.Exchanges["page"]["request"] = {
  "player": "Bo",
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…",
  "take": {
    "tempo": "80%"
  }
};

export const answer5: Protocol.MadePage = {
  "after": "</script>\n<script type=\"module\">const EN…",
  "before": "<!doctype html>\n<html lang=\"en\">\n<head>\n…",
  "ok": true
};

export const request6: Protocol.Exchanges["page"]["request"] = {
  "routine": "tempo = 1"
};

export const answer6: Protocol.Refusal = {
  "ok": false,
  "problems": [
    {
      "column": 1,
      "hint": "write format = 1 as its first line",
      "in": "routine",
      "message": "this file does not say which format it is in",
      "of": null,
      "row": 1,
      "severity": "error"
    },
    {
      "column": 1,
      "hint": "write title = \"Second steps\" at its head",
      "in": "routine",
      "message": "this routine has no title",
      "of": null,
      "row": 1,
      "severity": "error"
    },
    {
      "column": 1,
      "hint": "write instrument = \"trumpet in B-flat\" at its head",
      "in": "routine",
      "message": "this routine does not say what it is played on",
      "of": null,
      "row": 1,
      "severity": "error"
    },
    {
      "column": 9,
      "hint": "for instance tempo = 72, without quotes",
      "in": "routine",
      "message": "tempo is a number of clicks a minute, from 20 to 300",
      "of": null,
      "row": 1,
      "severity": "error"
    }
  ]
};

export const request7: Protocol.Exchanges["export"]["request"] = {
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…",
  "take": {
    "key": -1
  },
  "to": "musicxml"
};

export const answer7: Protocol.Exported = {
  "data": "PD94bWwgdmVyc2lvbj0iMS4wIiBlbmNvZGluZz0i…",
  "ok": true
};

export const request8: Protocol.Exchanges["takeMark"]["request"] = {
  "index": 0,
  "pencil": "format = 1\n[[mark]]\nline = 1\ntimes = 2\n",
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const answer8: Protocol.TakenMark = {
  "ok": true,
  "text": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const request9: Protocol.Exchanges["adopt"]["request"] = {
  "concert": true,
  "data": "WDoxClQ6VHVuZQpNOjQvNApMOjEvNApLOkMKQ0RFRnxHMnoyfAo=",
  "instrument": "cornet",
  "name": "tune.abc",
  "part": "1"
};

export const answer9: Protocol.Adopted = {
  "compared": true,
  "limited": false,
  "lines": 1,
  "losses": [],
  "ok": true,
  "said": [
    "for the cornet all notes are written 2 half steps higher, so that they sound as in the file",
    "it is a guess that C5 is easy: at least 85 % of the playing lies at or below C5",
    "no tempo is written: it is set to 72 clicks a minute"
  ],
  "text": "# Adopted from tune.abc.\n#\n# Everything …"
};
