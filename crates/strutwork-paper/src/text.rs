//! Text with bold, slanted, typewriter, raised and lowered parts.

/// Text as a list of spans.
///
/// A line feed starts a new line, and a no-break space keeps two words together; other control characters are dropped
/// when the text is set.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Text {
    /// Its parts, in order.
    pub spans: Vec<Span>,
}

/// A part of a text in one style.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Span {
    /// The letters.
    pub text: String,
    /// How they look.
    pub style: Style,
    /// The name of the place that they lead to, as [`Block::Anchor`](crate::Block::Anchor) gives it; empty for none.
    pub to: String,
}

/// How a span looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Style {
    /// Bold.
    pub bold: bool,
    /// Slanted; bold wins where both are asked for.
    pub italic: bool,
    /// Typewriter letters, for file names and hashes.
    pub mono: bool,
    /// Whether it stands on the line.
    pub rise: Rise,
    /// Its colour, which never carries a meaning alone.
    pub ink: Ink,
}

/// Whether a span stands on the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Rise {
    /// On it.
    #[default]
    Line,
    /// Small and below it.
    Sub,
    /// Small and above it.
    Super,
    /// Too small to be seen: a sign for those who read or copy the text, which its place tells the eye.
    Unseen,
}

/// The colour of letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Ink {
    /// That of the surrounding text.
    #[default]
    Inherit,
    /// That of plain text.
    Plain,
    /// Of what is secondary: units, notes.
    Soft,
    /// Of numbers of headings and links.
    Blue,
    /// Of what exceeds a limit.
    Red,
}

impl Text {
    /// No text.
    pub const fn new() -> Self {
        Self { spans: Vec::new() }
    }

    /// Adds a span.
    #[must_use]
    pub fn styled(mut self, text: impl Into<String>, style: Style) -> Self {
        self.spans.push(Span { text: text.into(), style, to: String::new() });
        self
    }

    /// Adds letters that lead to a place of the document; where no place has the name they are plain letters.
    #[must_use]
    pub fn link(mut self, text: impl Into<String>, to: impl Into<String>) -> Self {
        self.spans.push(Span { text: text.into(), style: Style::default(), to: to.into() });
        self
    }

    /// Adds plain letters.
    #[must_use]
    pub fn plain(self, text: impl Into<String>) -> Self {
        self.styled(text, Style::default())
    }

    /// Adds bold letters.
    #[must_use]
    pub fn bold(self, text: impl Into<String>) -> Self {
        self.styled(text, Style { bold: true, ..Style::default() })
    }

    /// Adds slanted letters.
    #[must_use]
    pub fn italic(self, text: impl Into<String>) -> Self {
        self.styled(text, Style { italic: true, ..Style::default() })
    }

    /// Adds typewriter letters.
    #[must_use]
    pub fn mono(self, text: impl Into<String>) -> Self {
        self.styled(text, Style { mono: true, ..Style::default() })
    }

    /// Adds small letters below the line.
    #[must_use]
    pub fn low(self, text: impl Into<String>) -> Self {
        self.styled(text, Style { rise: Rise::Sub, ..Style::default() })
    }

    /// Adds small letters above the line.
    #[must_use]
    pub fn high(self, text: impl Into<String>) -> Self {
        self.styled(text, Style { rise: Rise::Super, ..Style::default() })
    }

    /// Adds letters of what is secondary.
    #[must_use]
    pub fn soft(self, text: impl Into<String>) -> Self {
        self.styled(text, Style { ink: Ink::Soft, ..Style::default() })
    }

    /// Adds bold red letters, for what exceeds a limit; the words say so too.
    #[must_use]
    pub fn alarm(self, text: impl Into<String>) -> Self {
        self.styled(text, Style { bold: true, ink: Ink::Red, ..Style::default() })
    }

    /// Adds another text.
    #[must_use]
    pub fn then(mut self, other: Self) -> Self {
        self.spans.extend(other.spans);
        self
    }

    /// Whether there is nothing to read.
    pub fn is_empty(&self) -> bool {
        self.spans.iter().all(|span| span.text.is_empty())
    }

    /// Its letters without their styles.
    pub fn letters(&self) -> String {
        self.spans.iter().map(|span| span.text.as_str()).collect()
    }
}

impl From<&str> for Text {
    fn from(text: &str) -> Self {
        Self::new().plain(text)
    }
}

impl From<String> for Text {
    fn from(text: String) -> Self {
        Self::new().plain(text)
    }
}
