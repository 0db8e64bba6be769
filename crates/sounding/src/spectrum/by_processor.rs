//! The transform that suits the processor at hand.

use realfft::{RealFftPlanner, RealToComplex, num_complex::Complex};
use std::sync::Arc;

/// A planned transform.
#[derive(Clone)]
pub(super) struct Plan {
    plan: Arc<dyn RealToComplex<f64>>,
    output: Vec<Complex<f64>>,
    scratch: Vec<Complex<f64>>,
}

impl Plan {
    pub(super) fn new(length: usize) -> Plan {
        let plan = RealFftPlanner::<f64>::new().plan_fft_forward(length);
        Plan { output: plan.make_output_vec(), scratch: plan.make_scratch_vec(), plan }
    }

    pub(super) fn power(&mut self, input: &mut [f64]) -> Vec<f64> {
        // The buffers are those the plan made, so the transform cannot refuse them.
        let _ = self.plan.process_with_scratch(input, &mut self.output, &mut self.scratch);
        self.output.iter().map(Complex::norm_sqr).collect()
    }
}
