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

export const request10: Protocol.Exchanges["edit"]["request"] = {
  "edit": {
    "key": "times",
    "kind": "set",
    "line": 0,
    "value": 2
  },
  "text": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const answer10: Protocol.Edited = {
  "inverse": [
    {
      "end": 265,
      "start": 255,
      "with": ""
    }
  ],
  "ok": true,
  "selection": {
    "line": 0,
    "signs": null
  },
  "splices": [
    {
      "end": 255,
      "start": 255,
      "with": "times = 2\n"
    }
  ],
  "text": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const request11: Protocol.Exchanges["edit"]["request"] = {
  "edit": {
    "by": {
      "steps": 1
    },
    "first": 0,
    "kind": "move",
    "last": 0,
    "line": 0
  },
  "text": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const answer11: Protocol.Edited = {
  "inverse": [
    {
      "end": 150,
      "start": 148,
      "with": "C4"
    }
  ],
  "ok": true,
  "selection": {
    "line": 0,
    "signs": [
      0,
      0
    ]
  },
  "splices": [
    {
      "end": 150,
      "start": 148,
      "with": "D4"
    }
  ],
  "text": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const request12: Protocol.Exchanges["edit"]["request"] = {
  "edit": {
    "kind": "removeLine",
    "line": 99
  },
  "text": "format = 1\ntitle = \"Two lines\"\ninstrumen…"
};

export const answer12: Protocol.Refusal = {
  "ok": false,
  "problems": [
    {
      "column": null,
      "hint": "this routine has 2",
      "in": "request",
      "message": "there is no line 100",
      "of": null,
      "row": null,
      "severity": "error"
    }
  ]
};

export const data: Protocol.PageData = {
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
  }
};
