//! The letters a report is set in. All under the SIL Open Font Licence 1.1; the licences lie beside the files.

use std::sync::OnceLock;
use typst::foundations::Bytes;
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;

/// Serif, sans, then the scripts and signs that a survey may quote.
pub(crate) const FILES: [&[u8]; 10] = [
    include_bytes!("../fonts/SourceSerif4_400Regular.ttf"),
    include_bytes!("../fonts/SourceSerif4_400Regular_Italic.ttf"),
    include_bytes!("../fonts/SourceSerif4_600SemiBold.ttf"),
    include_bytes!("../fonts/SourceSans3_400Regular.ttf"),
    include_bytes!("../fonts/SourceSans3_400Regular_Italic.ttf"),
    include_bytes!("../fonts/SourceSans3_600SemiBold.ttf"),
    include_bytes!("../fonts/NotoSansHebrew_400Regular.ttf"),
    include_bytes!("../fonts/NotoNaskhArabic_400Regular.ttf"),
    include_bytes!("../fonts/NotoSansSymbols2_400Regular.ttf"),
    include_bytes!("../fonts/NotoEmoji_400Regular.ttf"),
];

/// The fonts with their book, read once a process.
pub(crate) struct Fonts {
    pub(crate) list: Vec<Font>,
    pub(crate) book: LazyHash<FontBook>,
}

pub(crate) fn fonts() -> &'static Fonts {
    static FONTS: OnceLock<Fonts> = OnceLock::new();
    FONTS.get_or_init(|| {
        let list: Vec<Font> = FILES.iter().flat_map(|file| Font::iter(Bytes::new(*file))).collect();
        let book = LazyHash::new(FontBook::from_fonts(&list));
        Fonts { list, book }
    })
}
