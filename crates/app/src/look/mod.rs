//! The look: a few parts of our own that every place is made of. They are all shown at `/look`.

mod condition;
mod dialog;
mod drawing_view;
mod entry_form;
mod field_view;
mod foot;
mod form_view;
mod record_view;

pub use condition::{ConditionMark, CoverMark};
pub use dialog::Dialog;
pub use drawing_view::DrawingView;
pub use entry_form::{EntryForm, FormOf};
pub use foot::{Foot, Plain};
pub use form_view::{FormState, FormView};
pub use record_view::{RecordRow, minutes_west};
