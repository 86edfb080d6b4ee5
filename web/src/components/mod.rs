//! Parts of the page that are used again and again.

mod copy_text;
mod hooks;
mod line_chart;
mod marked_up;
mod number_field;
mod ruler;
mod select_field;
mod worker_link;

pub use copy_text::CopyText;
pub use hooks::{OUT_OF_FLOW, Screen, Size, Theme, use_screen, use_size};
pub use line_chart::LineChartView;
pub use marked_up::MarkedUp;
pub use number_field::{NumberField, Slider};
pub use ruler::text_width;
pub use select_field::SelectField;
pub use worker_link::WorkerLink;
