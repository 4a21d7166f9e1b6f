// Real requests, answers and data of the page, to be held against protocol.d.ts: written by
//     UPDATE_ANSWERS=1 cargo test --test engine declared
// Long texts are cut.

export const request0: Protocol.StartRequest = {
  "sampleRate": 44100
};

export const answer0: Protocol.Started = {
  "ok": true,
  "sampleRate": 44100
};

export const request1: Protocol.Exchanges["strips"]["request"] = {
  "width": 270
};

export const answer1: Protocol.Refusal = {
  "ok": false,
  "problems": [
    {
      "column": null,
      "hint": null,
      "in": "request",
      "message": "no routine is open",
      "of": null,
      "row": null,
      "severity": "error"
    }
  ]
};

export const request2: Protocol.Exchanges["open"]["request"] = {
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const answer2: Protocol.Opened = {
  "id": 1,
  "lines": [
    {
      "barLine": 529200,
      "click": 44100.0,
      "clicksABar": 4,
      "countIn": 176400,
      "facts": "2 times through, 0:12. Then rest for 0:12.",
      "frames": 542430,
      "of": 0,
      "on": "horn",
      "passes": [
        {
          "end": 352800,
          "name": "",
          "place": "as written",
          "start": 176400,
          "turn": null
        },
        {
          "end": 529200,
          "name": "1 half step down",
          "place": "1 half step down",
          "start": 352800,
          "turn": null
        }
      ],
      "rest": 529200,
      "signs": true,
      "start": 22050,
      "stops": [
        {
          "typed": "stop after 0",
          "words": "as written"
        }
      ],
      "tempo": "60",
      "wholeNote": 176400.0
    },
    {
      "barLine": 1234800,
      "click": 44100.0,
      "clicksABar": 4,
      "countIn": 176400,
      "facts": "2 times through, 0:28. Then you have done it.",
      "frames": 1248030,
      "of": 1,
      "on": "horn",
      "passes": [
        {
          "end": 529200,
          "name": "open horn",
          "place": "on 0",
          "start": 176400,
          "turn": null
        },
        {
          "end": 1234800,
          "name": "on 1-2",
          "place": "on 1-2",
          "start": 882000,
          "turn": null
        }
      ],
      "rest": null,
      "signs": false,
      "start": 904050,
      "stops": [
        {
          "typed": "stop after 0",
          "words": "0"
        }
      ],
      "tempo": "60",
      "wholeNote": 176400.0
    }
  ],
  "ok": true,
  "pencil": null,
  "take": {
    "clicks": 60.0,
    "key": 0
  }
};

export const request3: Protocol.Exchanges["open"]["request"] = {
  "pencil": "format = 1\nplayer = \"Bo\"\n\n[[mark]]\nline …",
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…",
  "sampleRate": 48000,
  "take": {
    "guide": "echo",
    "key": -1,
    "signs": true,
    "tempo": "80%"
  }
};

export const answer3: Protocol.Opened = {
  "id": 2,
  "lines": [
    {
      "barLine": 1200000,
      "click": 60000.0,
      "clicksABar": 4,
      "countIn": 240000,
      "facts": "2 times through, 0:25. Then rest for 0:06.",
      "frames": 1214400,
      "of": 0,
      "on": "horn",
      "passes": [
        {
          "end": 720000,
          "name": "1 half step down",
          "place": "1 half step down",
          "start": 240000,
          "turn": 480000
        },
        {
          "end": 1200000,
          "name": "2 half steps down",
          "place": "2 half steps down",
          "start": 720000,
          "turn": 960000
        }
      ],
      "rest": 264000,
      "signs": false,
      "start": 24000,
      "stops": [
        {
          "typed": "stop after 0",
          "words": "as written"
        }
      ],
      "tempo": "48",
      "wholeNote": 240000.0
    },
    {
      "barLine": 3120000,
      "click": 60000.0,
      "clicksABar": 4,
      "countIn": 240000,
      "facts": "2 times through, 1:05. Then you have done it.",
      "frames": 3134400,
      "of": 1,
      "on": "horn",
      "passes": [
        {
          "end": 1200000,
          "name": "open horn",
          "place": "on 0",
          "start": 240000,
          "turn": 720000
        },
        {
          "end": 3120000,
          "name": "on 1-2",
          "place": "on 1-2",
          "start": 2160000,
          "turn": 2640000
        }
      ],
      "rest": null,
      "signs": false,
      "start": 1248000,
      "stops": [
        {
          "typed": "stop after 0",
          "words": "0"
        }
      ],
      "tempo": "48",
      "wholeNote": 240000.0
    }
  ],
  "ok": true,
  "pencil": {
    "advice": [],
    "marks": [
      {
        "index": 0,
        "kind": "rest",
        "note": null,
        "of": 0,
        "typed": "rest none",
        "words": "rest after it: none"
      },
      {
        "index": 1,
        "kind": "breath_after",
        "note": 1,
        "of": 0,
        "typed": "breath after 1",
        "words": "breathe after note 1"
      },
      {
        "index": 2,
        "kind": "loudness",
        "note": null,
        "of": null,
        "typed": "softer",
        "words": "a step softer"
      },
      {
        "index": 3,
        "kind": "tempo",
        "note": null,
        "of": "nowhere",
        "typed": "slower",
        "words": "slower (85 % of the tempo)"
      }
    ],
    "player": "Bo",
    "problems": [
      {
        "column": 8,
        "hint": "it has 2 lines; name the line by its name",
        "in": "pencil",
        "message": "there is no line 7 in “Two lines”",
        "of": null,
        "row": 16,
        "severity": "error"
      }
    ]
  },
  "take": {
    "clicks": 48.0,
    "key": -1
  }
};

export const request4: Protocol.Exchanges["open"]["request"] = {
  "pencil": null,
  "routine": "tempo = 1"
};

export const answer4: Protocol.Refusal = {
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
      "column": 1,
      "hint": "write comfortable_top = \"G4\" at its head: the highest open note played with ease",
      "in": "routine",
      "message": "this routine does not say for whom it is comfortable",
      "of": null,
      "row": 1,
      "severity": "error"
    },
    {
      "column": 1,
      "hint": "write [[line]] in a row of its own, and under it name = \"…\" and notes = \"…\"",
      "in": "routine",
      "message": "this routine has no lines",
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

export const request5: Protocol.Exchanges["strips"]["request"] = {
  "lines": [
    0
  ],
  "passes": "ends",
  "width": 270
};

export const answer5: Protocol.Strips = {
  "glyphs": "<svg hidden aria-hidden=\"true\"><defs>\n<p…",
  "ok": true,
  "strips": [
    {
      "notes": [
        {
          "bent": false,
          "name": "B3",
          "note": 1,
          "system": 0,
          "x": 46.18
        },
        {
          "bent": false,
          "name": "C#4",
          "note": 2,
          "system": 0,
          "x": 71.31
        },
        {
          "bent": false,
          "name": "D#4",
          "note": 3,
          "system": 0,
          "x": 96.44
        }
      ],
      "of": 0,
      "places": {
        "places": [
          "1 half step down",
          "2 half steps down"
        ],
        "systems": [
          {
            "box": [
              4.0,
              85.52
            ],
            "moments": [
              [
                0,
                0.0,
                46.18
              ],
              [
                0,
                0.25,
                71.31
              ],
              [
                0,
                0.5,
                96.44
              ],
              [
                0,
                0.75,
                121.31
              ],
              [
                1,
                0.0,
                161.55
              ],
              [
                1,
                0.25,
                186.68
              ],
              [
                1,
                0.5,
                211.81
              ],
              [
                1,
                0.75,
                236.68
              ],
              [
                1,
                1.0,
                266.0
              ]
            ],
            "staff": [
              41.38,
              61.86
            ]
          }
        ]
      },
      "svg": "<svg class=\"strip\" viewBox=\"0 0 270 89.5…",
      "width": 270.0
    }
  ]
};

export const request6: Protocol.Exchanges["mark"]["request"] = {
  "date": "2026-11-26",
  "mark": "slower",
  "of": 1,
  "pencil": null,
  "player": "Bo"
};

export const answer6: Protocol.Marked = {
  "ok": true,
  "pencil": "# Pencil marks over a routine, which its…"
};

export const request7: Protocol.Exchanges["mark"]["request"] = {
  "erase": true,
  "index": 0,
  "pencil": "format = 1\nplayer = \"Bo\"\n\n[[mark]]\nline …"
};

export const answer7: Protocol.Marked = {
  "ok": true,
  "pencil": "format = 1\nplayer = \"Bo\"\n\n[[mark]]\nline …"
};

export const request8: Protocol.Exchanges["begin"]["request"] = {
  "from": 64,
  "opened": 1,
  "unit": 1,
  "volume": [
    "click=-6dB"
  ]
};

export const answer8: Protocol.Begun = {
  "frames": 542366,
  "from": 64,
  "ok": true,
  "performance": 1
};

export const request9: Protocol.Exchanges["end"]["request"] = {
  "performance": 1
};

export const answer9: Protocol.Ended = {
  "ok": true
};

export const request10: Protocol.Exchanges["judge"]["request"] = {
  "age": "8-10",
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…",
  "takes": [
    {
      "tempo": "60%"
    }
  ]
};

export const answer10: Protocol.Judged = {
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
      "column": 8,
      "hint": "end with quiet, low, comfortable notes, mp or softer (a pass starts at mf unless a mark says otherwise)",
      "in": "routine",
      "message": "“Tubes”: the last line is not a gentle end: C4 (the 1st note, on 0) is louder than mp",
      "of": 1,
      "row": 16,
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

export const request11: Protocol.Exchanges["mend"]["request"] = {
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const answer11: Protocol.Mended = {
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

export const request12: Protocol.Exchanges["shelf"]["request"] = {
  "instrument": "trombone"
};

export const answer12: Protocol.Shelf = {
  "instruments": [
    "trumpet in B-flat",
    "trumpet in C",
    "trumpet in E-flat",
    "piccolo trumpet in B-flat",
    "piccolo trumpet in A",
    "cornet",
    "soprano cornet",
    "flugelhorn",
    "horn in F",
    "horn in B-flat",
    "double horn",
    "tenor horn",
    "baritone in bass clef",
    "baritone in treble clef",
    "euphonium in bass clef",
    "euphonium in treble clef",
    "four-valve euphonium in bass clef",
    "four-valve euphonium in treble clef",
    "compensating euphonium in bass clef",
    "compensating euphonium in treble clef",
    "trombone",
    "trombone in treble clef",
    "trombone with F attachment",
    "bass trombone",
    "tuba in E-flat",
    "tuba in E-flat in treble clef",
    "compensating tuba in E-flat",
    "compensating tuba in E-flat in treble clef",
    "tuba in B-flat",
    "four-valve tuba in B-flat",
    "tuba in B-flat in treble clef",
    "tuba in F",
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
      "age": "8-10",
      "level": 0,
      "lines": 9,
      "name": "first-sounds-young",
      "purpose": "one comfortable note becomes two, in short breaths",
      "seconds": 306.51428571428573,
      "title": "First sounds, young players"
    },
    {
      "age": "11-13",
      "level": 1,
      "lines": 10,
      "name": "first-steps",
      "purpose": "long easy sounds around one easy note",
      "seconds": 543.6571428571428,
      "title": "First steps"
    },
    {
      "age": "11-13",
      "level": 1,
      "lines": 9,
      "name": "first-steps-b",
      "purpose": "the easy note and what lies around it, another way",
      "seconds": 401.1809523809523,
      "title": "First steps, the other face"
    },
    {
      "age": "11-13",
      "level": 1,
      "lines": 6,
      "name": "first-steps-short",
      "purpose": "the easy note and its neighbours, for a busy day",
      "seconds": 291.3263157894737,
      "title": "First steps in five minutes"
    },
    {
      "age": "8-10",
      "level": 1,
      "lines": 9,
      "name": "first-steps-young",
      "purpose": "one easy note and its neighbours, in short breaths",
      "seconds": 357.9428571428571,
      "title": "First steps, young players"
    },
    {
      "age": "11-13",
      "level": 2,
      "lines": 10,
      "name": "second-steps",
      "purpose": "one easy sound, slurred and tongued",
      "seconds": 659.1809523809524,
      "title": "Second steps"
    },
    {
      "age": "11-13",
      "level": 2,
      "lines": 10,
      "name": "second-steps-b",
      "purpose": "one easy sound, slurred and tongued, another way",
      "seconds": 586.5077476299444,
      "title": "Second steps, the other face"
    },
    {
      "age": "11-13",
      "level": 2,
      "lines": 7,
      "name": "second-steps-short",
      "purpose": "one easy sound, for a busy day",
      "seconds": 301.03913043478263,
      "title": "Second steps in five minutes"
    },
    {
      "age": "8-10",
      "level": 2,
      "lines": 10,
      "name": "second-steps-young",
      "purpose": "one easy sound, in short breaths",
      "seconds": 331.21958041958044,
      "title": "Second steps, young players"
    },
    {
      "age": "11-13",
      "level": 2,
      "lines": 7,
      "name": "tongue-speed",
      "purpose": "a single tongue that gets faster without getting harder",
      "seconds": 264.2454978024772,
      "title": "Tongue speed"
    },
    {
      "age": "11-13",
      "level": 2,
      "lines": 7,
      "name": "soft-and-loud",
      "purpose": "one note through all dynamics, and a sound that stays round",
      "seconds": 258.1205741626794,
      "title": "Soft and loud"
    },
    {
      "age": "11-13",
      "level": 3,
      "lines": 10,
      "name": "third-steps",
      "purpose": "an octave of one colour, and the first arpeggios",
      "seconds": 706.8617059891108,
      "title": "Third steps"
    },
    {
      "age": "11-13",
      "level": 3,
      "lines": 10,
      "name": "third-steps-b",
      "purpose": "an octave of one colour, another way",
      "seconds": 553.4363636363636,
      "title": "Third steps, the other face"
    },
    {
      "age": "11-13",
      "level": 3,
      "lines": 7,
      "name": "third-steps-short",
      "purpose": "an octave of one colour, for a busy day",
      "seconds": 283.5857142857143,
      "title": "Third steps in five minutes"
    },
    {
      "age": "8-10",
      "level": 3,
      "lines": 10,
      "name": "third-steps-young",
      "purpose": "an octave of one colour, in short breaths",
      "seconds": 446.6961038961039,
      "title": "Third steps, young players"
    },
    {
      "age": "11-13",
      "level": 3,
      "lines": 8,
      "name": "scales",
      "purpose": "an octave up and down in several keys",
      "seconds": 322.7636884854276,
      "title": "Scales of an octave"
    },
    {
      "age": "11-13",
      "level": 3,
      "lines": 7,
      "name": "minor",
      "purpose": "scales, chords and a tune in minor",
      "seconds": 292.96583416583417,
      "title": "In minor"
    },
    {
      "age": "11-13",
      "level": 3,
      "lines": 6,
      "name": "songs",
      "purpose": "lyrical tunes in three keys",
      "seconds": 213.71835121400335,
      "title": "Three songs"
    },
    {
      "age": "14-16",
      "level": 3,
      "lines": 8,
      "name": "double-and-triple",
      "purpose": "two and three consonants on one stream of air",
      "seconds": 237.59472980617144,
      "title": "Double and triple tonguing"
    },
    {
      "age": "14-16",
      "level": 4,
      "lines": 12,
      "name": "fourth-steps",
      "purpose": "wider intervals and lighter fingers",
      "seconds": 801.4522996454347,
      "title": "Fourth steps"
    },
    {
      "age": "14-16",
      "level": 4,
      "lines": 12,
      "name": "fourth-steps-b",
      "purpose": "wider intervals and lighter fingers, another way",
      "seconds": 758.9629539542583,
      "title": "Fourth steps, the other face"
    },
    {
      "age": "14-16",
      "level": 4,
      "lines": 8,
      "name": "fourth-steps-short",
      "purpose": "wide and light, for a busy day",
      "seconds": 319.41802232854866,
      "title": "Fourth steps in five minutes"
    },
    {
      "age": "14-16",
      "level": 4,
      "lines": 7,
      "name": "pedal-tones",
      "purpose": "a wide and easy sound at the bottom of the horn",
      "seconds": 310.8,
      "title": "Pedal tones"
    },
    {
      "age": "14-16",
      "level": 5,
      "lines": 12,
      "name": "fifth-steps",
      "purpose": "the whole horn, still at ease",
      "seconds": 821.4919076346994,
      "title": "Fifth steps"
    },
    {
      "age": "14-16",
      "level": 5,
      "lines": 12,
      "name": "fifth-steps-b",
      "purpose": "the whole horn at ease, another way",
      "seconds": 830.1607503607504,
      "title": "Fifth steps, the other face"
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
    "B2",
    "C3",
    "D3",
    "E3",
    "F3",
    "G3",
    "A3",
    "B3",
    "C4",
    "D4",
    "E4",
    "F4",
    "G4",
    "A4",
    "B4",
    "C5",
    "D5"
  ]
};

export const request13: Protocol.Exchanges["choose"]["request"] = {
  "age": "11-13",
  "highest": "G4",
  "lowest": "G4"
};

export const answer13: Protocol.Chosen = {
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

export const request14: Protocol.Exchanges["takeDown"]["request"] = {
  "instrument": "trombone",
  "name": "first-steps"
};

export const answer14: Protocol.TakenDown = {
  "leftOut": [],
  "ok": true,
  "text": "# First steps: for a player whose highes…"
};

export const request15: Protocol.Exchanges["page"]["request"] = {
  "player": "Bo",
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…",
  "take": {
    "tempo": "80%"
  }
};

export const answer15: Protocol.MadePage = {
  "after": "</script>\n<script type=\"module\">const EN…",
  "before": "<!doctype html>\n<html lang=\"en\">\n<head>\n…",
  "ok": true
};

export const request16: Protocol.Exchanges["page"]["request"] = {
  "routine": "tempo = 1"
};

export const answer16: Protocol.Refusal = {
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
      "column": 1,
      "hint": "write comfortable_top = \"G4\" at its head: the highest open note played with ease",
      "in": "routine",
      "message": "this routine does not say for whom it is comfortable",
      "of": null,
      "row": 1,
      "severity": "error"
    },
    {
      "column": 1,
      "hint": "write [[line]] in a row of its own, and under it name = \"…\" and notes = \"…\"",
      "in": "routine",
      "message": "this routine has no lines",
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

export const request17: Protocol.Exchanges["export"]["request"] = {
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…",
  "take": {
    "key": -1
  },
  "to": "musicxml"
};

export const answer17: Protocol.Exported = {
  "data": "PD94bWwgdmVyc2lvbj0iMS4wIiBlbmNvZGluZz0i…",
  "ok": true
};

export const request18: Protocol.Exchanges["takeMark"]["request"] = {
  "index": 0,
  "pencil": "format = 1\n[[mark]]\nline = 1\ntimes = 2\n",
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const answer18: Protocol.TakenMark = {
  "ok": true,
  "text": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const request19: Protocol.Exchanges["adopt"]["request"] = {
  "concert": true,
  "data": "WDoxClQ6VHVuZQpNOjQvNApMOjEvNApLOkMKQ0RFRnxHMnoyfAo=",
  "instrument": "cornet",
  "name": "tune.abc",
  "part": "1"
};

export const answer19: Protocol.Adopted = {
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

export const data: Protocol.PageData = {
  "decimalSign": ".",
  "guides": [
    {
      "value": "together",
      "words": "plays along"
    },
    {
      "value": "echo",
      "words": "plays first, then leaves you the time"
    },
    {
      "value": "off",
      "words": "silent"
    }
  ],
  "keys": [
    {
      "value": "6",
      "words": "6 half steps up"
    },
    {
      "value": "5",
      "words": "5 half steps up"
    },
    {
      "value": "4",
      "words": "4 half steps up"
    },
    {
      "value": "3",
      "words": "3 half steps up"
    },
    {
      "value": "2",
      "words": "2 half steps up"
    },
    {
      "value": "1",
      "words": "1 half step up"
    },
    {
      "value": "0",
      "words": "as written"
    },
    {
      "value": "-1",
      "words": "1 half step down"
    },
    {
      "value": "-2",
      "words": "2 half steps down"
    },
    {
      "value": "-3",
      "words": "3 half steps down"
    },
    {
      "value": "-4",
      "words": "4 half steps down"
    },
    {
      "value": "-5",
      "words": "5 half steps down"
    },
    {
      "value": "-6",
      "words": "6 half steps down"
    }
  ],
  "language": "en",
  "largestPencil": 1048576,
  "marks": [
    {
      "marks": [
        {
          "kind": "tempo",
          "typed": "slower",
          "words": "slower"
        },
        {
          "kind": "tempo",
          "typed": "faster",
          "words": "faster"
        }
      ],
      "ofALine": false,
      "title": "Tempo"
    },
    {
      "marks": [
        {
          "kind": "rest",
          "typed": "rest longer",
          "words": "longer"
        },
        {
          "kind": "rest",
          "typed": "rest shorter",
          "words": "shorter"
        }
      ],
      "ofALine": false,
      "title": "Rest after it"
    },
    {
      "marks": [
        {
          "kind": "between",
          "typed": "between longer",
          "words": "longer"
        },
        {
          "kind": "between",
          "typed": "between shorter",
          "words": "shorter"
        }
      ],
      "ofALine": false,
      "title": "Rest between the times"
    },
    {
      "marks": [
        {
          "kind": "articulation",
          "typed": "tongued",
          "words": "tongued"
        },
        {
          "kind": "articulation",
          "typed": "slurred",
          "words": "slurred"
        },
        {
          "kind": "articulation",
          "typed": "both",
          "words": "both"
        },
        {
          "kind": "articulation",
          "typed": "as written",
          "words": "as written"
        }
      ],
      "ofALine": false,
      "title": "Tongue or slur"
    },
    {
      "marks": [
        {
          "kind": "times",
          "typed": "times 1",
          "words": "1"
        },
        {
          "kind": "times",
          "typed": "times 2",
          "words": "2"
        },
        {
          "kind": "times",
          "typed": "times 3",
          "words": "3"
        },
        {
          "kind": "times",
          "typed": "times 4",
          "words": "4"
        },
        {
          "kind": "times",
          "typed": "times 5",
          "words": "5"
        }
      ],
      "ofALine": false,
      "title": "How often"
    },
    {
      "marks": [
        {
          "kind": "loudness",
          "typed": "softer",
          "words": "softer"
        },
        {
          "kind": "loudness",
          "typed": "louder",
          "words": "louder"
        }
      ],
      "ofALine": false,
      "title": "How loud"
    },
    {
      "marks": [
        {
          "kind": "drone",
          "typed": "drone off",
          "words": "off"
        },
        {
          "kind": "drone",
          "typed": "drone tonic",
          "words": "key note"
        },
        {
          "kind": "drone",
          "typed": "drone tonic and fifth",
          "words": "key note and fifth"
        }
      ],
      "ofALine": false,
      "title": "Held note"
    },
    {
      "marks": [
        {
          "kind": "guide",
          "typed": "guide together",
          "words": "plays along"
        },
        {
          "kind": "guide",
          "typed": "guide echo",
          "words": "plays first"
        },
        {
          "kind": "guide",
          "typed": "guide off",
          "words": "off"
        }
      ],
      "ofALine": false,
      "title": "Guide"
    },
    {
      "marks": [
        {
          "kind": "leave_out",
          "typed": "leave out",
          "words": "leave out"
        },
        {
          "kind": "bend",
          "typed": "bend",
          "words": "bend half steps down"
        }
      ],
      "ofALine": true,
      "title": "The whole line"
    }
  ],
  "pencil": "format = 1\n",
  "places": {
    "0": [
      [
        {
          "places": [
            "as written",
            "1 half step down"
          ],
          "systems": [
            {
              "box": [
                4.0,
                67.19
              ],
              "moments": [
                [
                  0,
                  0.0,
                  46.18
                ],
                [
                  0,
                  0.25,
                  80.29
                ],
                [
                  0,
                  0.5,
                  114.39
                ],
                [
                  0,
                  0.75,
                  148.24
                ],
                [
                  0,
                  1.0,
                  186.0
                ]
              ],
              "staff": [
                25.53,
                46.02
              ]
            },
            {
              "box": [
                76.19,
                144.97
              ],
              "moments": [
                [
                  1,
                  0.0,
                  33.38
                ],
                [
                  1,
                  0.25,
                  62.28
                ],
                [
                  1,
                  0.5,
                  91.18
                ],
                [
                  1,
                  0.75,
                  119.82
                ],
                [
                  1,
                  1.0,
                  153.94
                ]
              ],
              "staff": [
                110.87,
                131.35
              ]
            }
          ]
        },
        {
          "places": [
            "as written",
            "1 half step down"
          ],
          "systems": [
            {
              "box": [
                4.0,
                83.04
              ],
              "moments": [
                [
                  0,
                  0.0,
                  46.18
                ],
                [
                  0,
                  0.25,
                  75.08
                ],
                [
                  0,
                  0.5,
                  103.98
                ],
                [
                  0,
                  0.75,
                  132.62
                ],
                [
                  1,
                  0.0,
                  172.83
                ],
                [
                  1,
                  0.25,
                  201.73
                ],
                [
                  1,
                  0.5,
                  230.63
                ],
                [
                  1,
                  0.75,
                  259.27
                ],
                [
                  1,
                  1.0,
                  293.39
                ]
              ],
              "staff": [
                41.38,
                61.86
              ]
            }
          ]
        }
      ],
      [
        {
          "places": [
            "on 0",
            "on 1-2"
          ],
          "systems": [
            {
              "box": [
                4.0,
                57.63
              ],
              "moments": [
                [
                  0,
                  0.0,
                  46.18
                ],
                [
                  0,
                  0.5,
                  85.04
                ],
                [
                  0,
                  1.0,
                  132.04
                ],
                [
                  0,
                  2.0,
                  186.0
                ]
              ],
              "staff": [
                25.53,
                46.02
              ]
            },
            {
              "box": [
                66.63,
                122.54
              ],
              "moments": [
                [
                  1,
                  0.0,
                  33.38
                ],
                [
                  1,
                  0.5,
                  72.68
                ],
                [
                  1,
                  1.0,
                  120.14
                ],
                [
                  1,
                  2.0,
                  177.29
                ]
              ],
              "staff": [
                85.46,
                105.95
              ]
            }
          ]
        },
        {
          "places": [
            "on 0",
            "on 1-2"
          ],
          "systems": [
            {
              "box": [
                4.0,
                62.61
              ],
              "moments": [
                [
                  0,
                  0.0,
                  46.18
                ],
                [
                  0,
                  0.5,
                  85.48
                ],
                [
                  0,
                  1.0,
                  132.94
                ],
                [
                  1,
                  0.0,
                  196.19
                ],
                [
                  1,
                  0.5,
                  235.49
                ],
                [
                  1,
                  1.0,
                  282.95
                ],
                [
                  1,
                  2.0,
                  340.1
                ]
              ],
              "staff": [
                25.53,
                46.02
              ]
            }
          ]
        }
      ]
    ]
  },
  "player": "bo",
  "routine": "format = 1\ntitle = \"Two lines\"\ninstrumen…",
  "sampleRate": 44100,
  "takes": [
    {
      "file": "two-lines%20bo%20060%20key-0%20echo.wav",
      "guide": "echo",
      "key": 0,
      "lines": [
        {
          "barLine": 882000,
          "click": 44100.0,
          "clicksABar": 4,
          "countIn": 176400,
          "of": 0,
          "on": "horn",
          "passes": [
            {
              "end": 529200,
              "name": "",
              "place": "as written",
              "start": 176400,
              "turn": 352800
            },
            {
              "end": 882000,
              "name": "1 half step down",
              "place": "1 half step down",
              "start": 529200,
              "turn": 705600
            }
          ],
          "rest": 529200,
          "start": 22050,
          "tempo": "60",
          "wholeNote": 176400.0
        },
        {
          "barLine": 1940400,
          "click": 44100.0,
          "clicksABar": 4,
          "countIn": 176400,
          "of": 1,
          "on": "horn",
          "passes": [
            {
              "end": 882000,
              "name": "open horn",
              "place": "on 0",
              "start": 176400,
              "turn": 529200
            },
            {
              "end": 1940400,
              "name": "on 1-2",
              "place": "on 1-2",
              "start": 1234800,
              "turn": 1587600
            }
          ],
          "rest": null,
          "start": 1256850,
          "tempo": "60",
          "wholeNote": 176400.0
        }
      ],
      "tempo": "100%"
    }
  ],
  "tempo": 60.0,
  "title": "Two lines",
  "widths": {
    "narrow": 190.0,
    "touch": 120.0,
    "wide": 380.0
  },
  "words": {
    "about-the-pencil": "Slower here, a breath there: your marks stay on this phone until you send them.",
    "add-them": "Add them to my marks",
    "again": "Again",
    "another-mark": "Another mark, in words",
    "back": "Back",
    "before-playing": "Before you play",
    "being-kept": "Being kept on this phone: track {kept} of {of}.",
    "bend-it": "Bend it",
    "bend-note": "bend note {note}",
    "breath-after-note": "breath after note {note}",
    "breathe": "breathe",
    "breathe-after-it": "Breathe after it",
    "broke-alone": "The player broke down. Load the page again.",
    "busy": "This phone is busy. If nothing changes, load the page again.",
    "click": "Click",
    "clicks-a-minute": "{tempo} clicks a minute",
    "count": "count",
    "done": "done",
    "done-marking": "Done",
    "every-line": "Every line",
    "faster": "Faster",
    "file-is-no-pencil": "This is not a pencil. {why}",
    "file-is-routine": "This is a routine, not a pencil. Your teacher makes a page from it.",
    "file-is-routine-of": "This is a routine, “{title}”, not a pencil. Your teacher makes a page from it.",
    "file-too-large": "This file is too large to be a pencil.",
    "finished-tracks": "Finished tracks to save",
    "finished-tracks-play": "The player broke down. From now on the finished tracks play: touch Go on.",
    "from-note": "From note {note}",
    "from-the-top": "From the top",
    "go-on": "Go on",
    "good-percent": "Good: {percent} %",
    "guide": "Guide",
    "have-read": "I have read this",
    "held-note": "Held note",
    "hold-the-rest": "Hold the rest",
    "how-to-play": "How to play it",
    "im-ready": "I’m ready",
    "interrupted": "The phone has taken the sound away, as for a call. Touch Go on when you are ready.",
    "kept": "Kept on this phone: it plays without a network.",
    "kept-needs-https": "Plays here; to keep it on the phone, open it from an https site.",
    "kept-no-room": "There was no room on the phone for all tracks: they play from the network.",
    "key": "Key",
    "last-line-done": "That was the last line. You have done it.",
    "leave-my-marks": "Leave my marks as they are",
    "line-and-tempo": "Line {name}. {tempo} clicks a minute.",
    "listen": "listen",
    "load-again": "load the page again",
    "loop-bar": "Bar {n}",
    "loop-line": "The whole line",
    "loop-time": "Time {n}, whole",
    "looping": "Again and again, each time after one bar. Touch Good after a good go: the next is faster.",
    "make-mark": "Mark",
    "mark-every-line": "Mark every line",
    "mark-example": "For example: rest 2 bars, tempo 60, half steps 0,-1,-2, tubes 0,2, drone Bb3.",
    "mark-instead": "{mark}, instead of “{words}”",
    "marks-everywhere": "Marks on every line",
    "marks-gone": "Only yours: they stay if you add, and go if you replace",
    "marks-left-out": "Not for this routine: they are left out",
    "marks-new": "New",
    "marks-not-kept": "This phone does not keep your marks: its…",
    "marks-of": "Marks: {title}",
    "marks-there": "You have them already",
    "marks-to-send": "Marks: {title}",
    "marks-unreadable": "Marks that this phone keeps for this routine could not be read. They are laid aside, and nothing is written over them.",
    "next-is": "Next: {name}",
    "nickname": "Your nickname (may stay empty)",
    "no-engine-alone": "This browser is too old to play this page. Try another one, or ask your teacher for the tracks.",
    "no-notes-to-mark": "This line has no notes to mark.",
    "nobodys-pencil-with-marks": "A pencil without a name, with {marks}.",
    "not-kept": "It could not be kept on this phone: {why}",
    "once-more": "Once more to the end, and on with the line.",
    "open-marks": "Open marks from a file",
    "own-volume": "This phone’s own buttons set the volume.",
    "pause": "Pause",
    "pencil": "Pencil",
    "pencil-at": "Pencil: {title}",
    "pencil-with-marks": "The pencil of {player}, with {marks}.",
    "percent-of-written": "Percent of what is written",
    "player-broke": "the player of this page broke down",
    "ready": "ready",
    "replace-mine": "Replace my marks with them",
    "rest-held": "The rest is held. Touch again when you are ready.",
    "rest-left": "rest {seconds}",
    "rest-then": "Rest {seconds} seconds. Next: {name}.",
    "rub-out": "Rub out",
    "save-unreadable": "Save them as a file for my teacher",
    "send-marks": "Send my marks to my teacher",
    "silent-device": "No sound comes out of this phone. Close …",
    "silent-engine": "The sound is late: this phone is busy. It may come yet; if not, touch Try again.",
    "silent-network": "The track does not arrive. Is the phone still connected? Then touch Try again.",
    "slower": "Slower",
    "slower-percent": "Slower {percent} %",
    "so-many-marks": {
      "by": "n",
      "one": "1 mark",
      "other": "{n} marks"
    },
    "start-from-one": "Start from line 1",
    "stop-after": "Stop after",
    "take-your-time": "take your time",
    "tempo-now": "{tempo} clicks a minute ({percent} %)",
    "tempo-printed": "A tempo printed over the music is that of 100 %: it is played at {percent} % of it.",
    "throw-away": "Throw them away",
    "to-note": "To note {note}",
    "touch-a-note": "Touch a note",
    "touch-first": "Touch the first note",
    "touch-last": "Touch the last note",
    "try-again": "Try again",
    "undo": "Undo",
    "use-new-marks": "Use the marks of the new handout instead of mine",
    "use-these": "Use these marks",
    "volume": "Volume",
    "volumes": "Volumes",
    "which-time": "{n} of {times}",
    "words": "Words",
    "words-for-the-sheet": "For the sheet",
    "your-turn": "your turn",
    "yours-is": "Yours is the pencil of {player}."
  }
};
