//! The pages of the `R` codes.

use strutwork_model::explain::Page;

/// One page for each `R` code, in order.
pub const PAGES: &[Page] = &[
    Page {
        code: "R001",
        title: "The text cannot be read as a script",
        meaning: "A bracket, semicolon or sign is missing or stands where it cannot. The place is where reading stopped; the \
                  slip may be just before it.",
        example: "let wall = 2\nprint(wall);",
        remedy: "End each statement with `;` and close every bracket.",
    },
    Page {
        code: "R002",
        title: "There is no such function",
        meaning: "No function has this name, or the one that has it does not take these arguments.",
        example: "model().new_cas(\"push\", \"\", \"physical\");",
        remedy: "Take the spelling that the message proposes, or look in `strutwork reference`.",
    },
    Page {
        code: "R003",
        title: "There is no such variable",
        meaning: "The name is not defined where it is used. A function sees its own parameters, and constants as \
                  `global::NAME`; it does not see variables outside it.",
        example: "let walls = [1.5, 2];\nprint(wall);",
        remedy: "Define it with `let`, pass it to the function, or make it a `const` and write `global::NAME`.",
    },
    Page {
        code: "R004",
        title: "There is no such property",
        meaning: "A map has no such key, or a value has no such property.",
        example: "print(model().joint(\"FL\").x);",
        remedy: "Names carry their unit: `x_mm`. `m.keys()` lists what a map holds.",
    },
    Page {
        code: "R005",
        title: "A value of the wrong type",
        meaning: "A text stands where a number must be, or the like. Wherever a number is asked for, `5` and `5.0` are both \
                  right.",
        example: "c.gravity(\"1\");",
        remedy: "Give what the message asks for; `parse_float(text)` makes a number of a text.",
    },
    Page {
        code: "R006",
        title: "The script takes more steps than it may",
        meaning: "The steps of a script are counted, over all its functions and imports, so that a loop without end stops.",
        example: "loop { }",
        remedy: "Look for the loop that does not end. If the work is really that long, raise the limit with \
                 --max-operations.",
    },
    Page {
        code: "R007",
        title: "The script takes more time than it may",
        meaning: "The time of a script is limited, so that nobody waits for a loop without end.",
        example: "while true { model().solve(model().standard_cases()); }",
        remedy: "Look for the loop that does not end. If the work is really that long, raise the limit with --max-seconds.",
    },
    Page {
        code: "R008",
        title: "Functions call each other too deeply",
        meaning: "A function that calls itself, directly or through others, never comes to its end.",
        example: "fn again(n) { again(n + 1) }\nagain(0);",
        remedy: "Give the recursion an end, or write it as a loop. If it really is that deep, raise the limit with \
                 --max-depth (1000 at most).",
    },
    Page {
        code: "R009",
        title: "A text, array or map grows beyond its limit",
        meaning: "What a script can hold at a time is limited, so that it does not take all memory. Items of arrays within \
                  arrays count.",
        example: "let all = []; loop { all.push(0); }",
        remedy: "Write results out as they come instead of keeping them. If it really is that large, raise the limit with \
                 --max-size.",
    },
    Page {
        code: "R010",
        title: "A path is refused",
        meaning: "A script reads only below its own folder and the models that it is given, and writes only below its \
                  output folder. Paths with `..`, absolute paths and circles of imports are refused.",
        example: "import \"../../other/cases\" as other;",
        remedy: "Put the file below the script's folder; give a model's folder as an argument of the command.",
    },
    Page {
        code: "R011",
        title: "The script stopped itself",
        meaning: "The script threw a value that nothing caught.",
        example: "if count == 0 { throw \"nothing to do\"; }",
        remedy: "The message is the script's own: see there.",
    },
    Page {
        code: "R012",
        title: "The script went wrong while it ran",
        meaning: "An item beyond the end of an array, an overflow of whole numbers, a constant that was assigned to, or the \
                  like.",
        example: "let walls = [1.5, 2];\nprint(walls[2]);",
        remedy: "The message and the place say what: the first item of an array is number 0.",
    },
    Page {
        code: "R013",
        title: "A function that scripts may not call",
        meaning: "A script must give the same result every time, so it can neither look at the clock nor wait.",
        example: "print(timestamp());",
        remedy: "Do without it. The run itself is timed and dated in the report.",
    },
    Page {
        code: "R014",
        title: "A number that is not finite, or a division by zero",
        meaning: "Infinite numbers and those that are none are stopped at the door: nothing may be computed from them.",
        example: "c.joint_load(\"FL\", #{ fz_n: 1e308 * 10 });",
        remedy: "Look at the divisor, or for an overflow, before the place.",
    },
    Page {
        code: "R015",
        title: "A named value that the function does not know, or one that is missing",
        meaning: "Functions that take a map take named values only, and say which.",
        example: "c.joint_load(\"FL\", #{ fz: -500 });",
        remedy: "Take a name from the message: `fz_n`.",
    },
    Page {
        code: "R016",
        title: "A name that does not exist, or one that is taken",
        meaning: "No joint, tube, section, group, mass, gauge or load case has this name; or one that is to be added has it \
                  already. Names are compared exactly.",
        example: "model().set_wall(\"brase\", 2);",
        remedy: "Take the spelling that the message proposes, or a new name.",
    },
    Page {
        code: "R017",
        title: "A function that cannot be used here",
        meaning: "A case script builds load cases on the model of the run: it does not open or change models, solve or \
                  write. A finished load case stays as it is. `model()` needs a model that was opened.",
        example: "model().set_wall(\"rail\", 2) in cases.rhai",
        remedy: "Put it into a free-standing script, which `strutwork script FILE` runs.",
    },
    Page {
        code: "R018",
        title: "A load case for another model, or for this one before it was changed",
        meaning: "A load case holds weights, wheel loads and names of the model that it was built on. After a change they \
                  would be wrong.",
        example: "let cases = frame.standard_cases();\nframe.set_wall(\"rail\", 3);\nframe.solve(cases);",
        remedy: "Change the model first, then build the cases, then solve.",
    },
    Page {
        code: "R019",
        title: "The model is not valid",
        meaning: "A script opened a model with faults, or changed one into something that is none. The faults follow, each \
                  with its own code.",
        example: "model().set_wall(\"rail\", 40) on a tube 30 mm wide",
        remedy: "See the faults that follow.",
    },
    Page {
        code: "R020",
        title: "A file could not be read or written",
        meaning: "What the script asked for is not there, or the system refuses it.",
        example: "let frame = open_model(\"my-fram\");",
        remedy: "Check the path and the permissions; a path is relative to the script's folder, or to the output folder.",
    },
    Page {
        code: "R021",
        title: "A value outside its range",
        meaning: "A function takes values of a certain range only.",
        example: "spaced(1, 3, 1)",
        remedy: "Take a value from the range that the message names.",
    },
    Page {
        code: "R022",
        title: "A result that the load case does not hold",
        meaning: "The case did not measure it, the joint is not held, or the section has no stresses.",
        example: "r.torsional_stiffness(\"bending\")",
        remedy: "Ask for it when the case is built (`measure_twist`), or ask another case.",
    },
    Page {
        code: "R023",
        title: "A part that cannot be checked",
        meaning: "A check of a part by itself needs a section whose shape and sizes the clauses know, a hollow one for joints and \
                  welds, and a material with yield and ultimate strength.",
        example: "model().section_check(\"by properties\", \"mild\", #{ n_n: 500 });",
        remedy: "Give the section its shape and sizes, or the material its strengths, in model.toml; or take another one.",
    },
    Page {
        code: "R024",
        title: "A study that is not well described",
        meaning: "Nothing is varied or nothing is asked, a parameter has no values or one of them twice, two columns have one name, \
                  or the design does not go with the parameters.",
        example: "let s = frame.new_study(\"walls\");\ns.ask_mass();\ns.run();",
        remedy: "Vary something (`vary_wall`, …), ask something (`ask_mass`, …), and give lists of values to `full_grid`, \
                 `one_at_a_time` and `subsets`; ranges go with `latin_hypercube` and `sobol`.",
    },
    Page {
        code: "R030",
        title: "Results cannot be read",
        meaning: "A folder that was to be compared holds no finished run, or a file of it is broken. The faults that follow say \
                  which, each with its own code.",
        example: "compare_results(\"old/results\", \"my-frame\");",
        remedy: "Give the folder that `strutwork run` wrote into, or run the model again.",
    },
];
