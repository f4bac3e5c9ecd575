//! The codes of this crate, in the order of their pages ([`crate::explain::PAGES`]).

use crate::diagnostic::Code;

macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $code:literal;)*) => {
        $($(#[$doc])* pub const $name: Code = Code($code);)*

        /// Every code of this crate, in order.
        pub const ALL: &[Code] = &[$($name),*];
    };
}

codes! {
    /// A required file is not there.
    MISSING_FILE = "M001";
    /// A file is not UTF-8 text.
    NOT_UTF8 = "M002";
    /// A file holds NUL bytes.
    NUL_BYTE = "M003";
    /// Lines end with a carriage return alone.
    LINE_ENDS = "M004";
    /// A CSV file that no model folder has.
    UNKNOWN_FILE = "M005";
    /// A part of the contract that is not built yet.
    NOT_SUPPORTED_YET = "M006";
    /// A table without rows.
    EMPTY_TABLE = "M007";
    /// Cells are parted by something other than commas.
    SEPARATOR = "M010";
    /// A column that the table does not have.
    UNKNOWN_COLUMN = "M011";
    /// A required column is not there.
    MISSING_COLUMN = "M012";
    /// A column stands twice.
    DUPLICATE_COLUMN = "M013";
    /// A column or key in another unit.
    WRONG_UNIT = "M014";
    /// A column with cells but without a name.
    UNNAMED_COLUMN = "M015";
    /// A row with too few or too many cells.
    CELL_COUNT = "M016";
    /// A quote that is not closed, or text after a closing quote.
    QUOTES = "M017";
    /// Something else where a number belongs.
    NOT_A_NUMBER = "M020";
    /// `nan`, `inf`, or a number too large.
    NOT_FINITE = "M021";
    /// A cell that needs a value is empty.
    BLANK_CELL = "M022";
    /// A word that is not one of those allowed.
    UNKNOWN_WORD = "M023";
    /// A name is empty.
    EMPTY_NAME = "M024";
    /// A name holds control characters.
    CONTROL_CHARACTER = "M025";
    /// `model.toml` cannot be read as TOML.
    TOML_SYNTAX = "M030";
    /// A key or table that `model.toml` does not have.
    UNKNOWN_KEY = "M031";
    /// A required key is not there.
    MISSING_KEY = "M032";
    /// A value of another kind than the key wants.
    WRONG_KIND = "M033";
    /// Two keys that exclude each other, or a key that the shape does not have.
    KEYS_DISAGREE = "M034";
    /// The model has no title.
    NO_TITLE = "M035";
    /// A name stands twice.
    DUPLICATE_NAME = "M101";
    /// A joint that is not in `joints.csv`.
    UNKNOWN_JOINT = "M102";
    /// A tube that is not in `tubes.csv`.
    UNKNOWN_TUBE = "M103";
    /// A section that is not in `model.toml`.
    UNKNOWN_SECTION = "M104";
    /// A material that is not in `model.toml`.
    UNKNOWN_MATERIAL = "M105";
    /// A grade that is not in the built-in list.
    UNKNOWN_GRADE = "M106";
    /// A section or material that no tube uses.
    UNUSED = "M107";
    /// The same row of loads twice.
    DUPLICATE_ROW = "M108";
    /// Two case names that differ only in case or spaces.
    LOOK_ALIKE = "M109";
    /// A joint stands twice in one list.
    JOINT_LISTED_TWICE = "M110";
    /// Two joints at one place.
    SAME_PLACE = "M201";
    /// A tube from a joint to itself.
    TUBE_TO_ITSELF = "M202";
    /// Two tubes between the same two joints.
    DOUBLED_TUBE = "M203";
    /// A tube shorter than its section is wide.
    SHORT_TUBE = "M204";
    /// A joint that no tube reaches.
    LOOSE_JOINT = "M205";
    /// The frame falls into parts that no tube connects.
    SEPARATE_PARTS = "M206";
    /// The frame is far too small or too large.
    ODD_FRAME = "M207";
    /// A single coordinate looks like metres.
    ODD_COORDINATE = "M208";
    /// A size that is zero or negative.
    SIZE_NOT_POSITIVE = "M301";
    /// A wall that leaves no hole.
    WALL_TOO_THICK = "M302";
    /// A corner radius that does not fit.
    CORNER_RADIUS = "M303";
    /// A section size that looks like another unit.
    ODD_SECTION = "M304";
    /// A gauge that is not in the list.
    UNKNOWN_GAUGE = "M305";
    /// A stock size that is not in the list.
    UNKNOWN_STOCK = "M306";
    /// A material value that is zero, negative or contradicts another.
    MATERIAL_VALUE = "M307";
    /// A material value that looks like another unit.
    ODD_MATERIAL = "M308";
    /// A wall outside the range that the grade's strength holds for.
    GRADE_WALL = "M309";
    /// A joint has two rows of supports.
    SUPPORT_TWICE = "M401";
    /// A support stiffness that is zero or negative.
    SPRING_NOT_POSITIVE = "M402";
    /// A support that holds nothing.
    HOLDS_NOTHING = "M403";
    /// A settlement of a freedom that is not fixed.
    SETTLEMENT_NOT_FIXED = "M404";
    /// A freedom is settled twice in one case.
    SETTLED_TWICE = "M405";
    /// A temperature on a material without a coefficient of expansion.
    NO_EXPANSION = "M406";
    /// Weight is asked of a material without density.
    NO_DENSITY = "M407";
    /// A place outside the tube.
    OUTSIDE_TUBE = "M408";
    /// A mass that is zero or negative.
    MASS_NOT_POSITIVE = "M409";
    /// A mass that no joint carries.
    MASS_NOT_CARRIED = "M410";
    /// There are loads and nothing holds the frame.
    FLOATS = "M411";
    /// The vehicle's wheels cannot be placed.
    CONTACT_MISSING = "M501";
    /// Contact points and wheelbase or tracks disagree.
    CONTACTS_DISAGREE = "M502";
    /// A wheel on the wrong side or axle.
    WHEEL_SIDES = "M503";
    /// A share outside 0 to 1.
    SHARE_RANGE = "M504";
    /// A corner without joints.
    CORNER_NOT_CARRIED = "M505";
    /// A vehicle size that is zero or negative.
    VEHICLE_SIZE = "M506";
    /// A factor without a source.
    NO_SOURCE = "M507";
    /// A margin on yield below 1.
    YIELD_MARGIN = "M508";
}
