// Real requests, answers or data, to be held against protocol.d.ts: written by
//     UPDATE_ANSWERS=1 cargo test --test engine declared
// Long texts and lists are cut.

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
