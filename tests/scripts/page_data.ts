// Real requests, answers or data, to be held against protocol.d.ts: written by
//     UPDATE_ANSWERS=1 cargo test --test engine declared
// Long texts and lists are cut.

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
