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
    /// A date that is none.
    NOT_A_DATE = "M036";
    /// The model's revision is not among its revisions.
    REVISION_WITHOUT_NOTE = "M037";
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
    /// A section, material or bolt that nothing uses.
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
    /// A joint that no tube and no body reaches.
    LOOSE_JOINT = "M205";
    /// The frame falls into parts that nothing connects.
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
    /// A mass that nothing carries.
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
    /// A corner that nothing carries.
    CORNER_NOT_CARRIED = "M505";
    /// A vehicle size that is zero or negative.
    VEHICLE_SIZE = "M506";
    /// A factor without a source.
    NO_SOURCE = "M507";
    /// A margin on yield below 1.
    YIELD_MARGIN = "M508";
    /// A body that is not in `bodies.csv`.
    UNKNOWN_BODY = "M601";
    /// A bolt that is not in `model.toml`.
    UNKNOWN_BOLT = "M602";
    /// A body bolts to one joint twice.
    DOUBLED_BOLT = "M603";
    /// A joint is bolted rigidly to two bodies.
    RIGID_TO_TWO = "M604";
    /// A mount whose every direction is free.
    MOUNT_HOLDS_NOTHING = "M605";
    /// A mount stiffness that is zero or negative.
    MOUNT_STIFFNESS = "M606";
    /// An axis that points nowhere.
    NO_DIRECTION = "M607";
    /// A link or a place that nothing on the frame carries.
    NO_CARRIER = "M608";
    /// A point that is needed, given in part, or given where there is none.
    POINT_MISSING = "M609";
    /// A corner both linked and carried by joints or a body.
    LINKED_AND_CARRIED = "M610";
    /// The unknown forces of a corner are not six.
    LINK_COUNT = "M611";
    /// A link whose two ends stand at one place.
    LINK_OF_NO_LENGTH = "M612";
    /// Links, and no vehicle.
    NO_VEHICLE = "M613";
    /// A mass on the upright of a corner without links.
    UPRIGHT_NOT_LINKED = "M614";
    /// The share of the roll stiffness and the roll stiffnesses disagree.
    ROLL_SHARES_DISAGREE = "M615";
    /// A weighed mass that is zero or negative.
    WEIGHED_NOT_POSITIVE = "M616";
    /// A moment of inertia that nothing can have.
    MASS_INERTIA = "M617";
    /// A fixing that is not in `model.toml`.
    UNKNOWN_FIXING = "M701";
    /// A panel with neither three nor four corners.
    PANEL_CORNERS = "M702";
    /// Corners that do not go round the edge, or an inward corner.
    PANEL_SHAPE = "M703";
    /// A panel without area.
    PANEL_AREA = "M704";
    /// A panel whose corners do not lie in one plane.
    PANEL_WARPED = "M705";
    /// A thickness of zero or less.
    PANEL_THICKNESS = "M706";
    /// A thickness that looks like another unit.
    ODD_THICKNESS = "M707";
    /// Two panels on the same corners.
    DOUBLED_PANEL = "M708";
    /// A panel edge without a tube.
    BARE_EDGE = "M709";
    /// A fixing value of zero or less.
    FIXING_VALUE = "M710";
    /// A fixing value that looks like another unit.
    ODD_FIXING = "M711";
    /// An end of a tube both released and on a spring.
    SPRING_AND_RELEASE = "M712";
    /// An end spring of zero or less.
    END_SPRING = "M713";
    /// An offset longer than the tube.
    OFFSET_TOO_LONG = "M714";
    /// A limit of the rule for soft joints outside 0 to 1.
    SOFT_LIMIT = "M715";
    /// A partial factor below 1.
    GAMMA_BELOW_ONE = "M801";
    /// The margins of both bases.
    TWO_MARGINS = "M802";
    /// A check that there is not, or that cannot be switched off.
    UNKNOWN_CHECK = "M803";
    /// A check switched off without a reason.
    NO_REASON = "M804";
    /// A buckling length that is zero, negative or given twice.
    BUCKLING_LENGTH = "M805";
    /// A buckling length that looks like another unit.
    ODD_BUCKLING_LENGTH = "M806";
    /// A group that no tube has, or that is brace and chord at once.
    MEMBER_GROUP = "M807";
    /// A limit of slenderness that is zero or negative.
    SLENDERNESS_LIMIT = "M808";
    /// A weld for a group that no tube has.
    WELD_GROUP = "M811";
    /// A throat that is zero or negative.
    WELD_THROAT = "M812";
    /// A butt weld with a throat.
    BUTT_THROAT = "M813";
    /// A throat that does not fit the wall.
    ODD_THROAT = "M814";
    /// A size of bolt that is not in the list.
    BOLT_SIZE = "M821";
    /// A property class of bolts that is not in the list.
    BOLT_CLASS = "M822";
    /// A value of a bolt that is zero or negative.
    BOLT_VALUE = "M823";
    /// A number of shear planes other than 1 or 2.
    SHEAR_PLANES = "M824";
    /// A hole that the bolt does not go through.
    BOLT_HOLE = "M825";
    /// An edge that the hole breaks.
    BOLT_EDGE = "M826";
    /// A sleeve that cannot be made, or that the bolt does not go through.
    SLEEVE_BORE = "M827";
    /// A value of a bolt that looks like another unit.
    ODD_BOLT = "M828";
    /// A fatigue pair of cases that are none, or the same.
    FATIGUE_PAIR = "M831";
    /// Cycles, or a share of a range, of zero or less.
    FATIGUE_CYCLES = "M832";
    /// Cycles that no frame meets.
    ODD_CYCLES = "M833";
    /// A detail category that the standard does not have.
    FATIGUE_CATEGORY = "M834";
    /// A group with a detail that no tube has.
    FATIGUE_GROUP = "M835";
    /// A factor below 1 on stress ranges.
    MOMENT_FACTOR = "M836";
    /// A limit on movement of no kind, or of two.
    LIMIT_KIND = "M837";
    /// A limit on movement of zero or less.
    LIMIT_SIZE = "M838";
    /// A limit on movement that looks like another unit.
    ODD_LIMIT = "M839";
    /// A table `[rig]` and no readings.
    RIG_WITHOUT_READINGS = "M901";
    /// A station of the rig without place or spacing.
    RIG_STATION_PLACE = "M902";
    /// Rows of one station or step of the rig that disagree.
    RIG_DISAGREES = "M903";
    /// Dials that stand no distance apart.
    RIG_SPACING = "M904";
    /// A step of the rig without a couple, or with two.
    RIG_COUPLE = "M905";
    /// A step or cycle that is no whole number.
    RIG_NUMBER = "M906";
    /// A station that is read twice in one step.
    RIG_READ_TWICE = "M907";
    /// A station that is not in `rig.csv`.
    RIG_UNKNOWN_STATION = "M908";
    /// Not two different joints or stations.
    RIG_JOINTS = "M909";
    /// A negative size in `[rig]`.
    RIG_SIZE = "M910";
    /// A weighed part that is not in the model.
    WEIGHED_UNKNOWN = "M911";
    /// A weighing with a raised axle that is not complete.
    RAISED = "M912";
}
