"""Pull tests on the roof: what readings prove, what a proof test asks, which anchors are pulled."""

from sitemodel.pull_tests.evaluation import Estimate, Evaluation, evaluate, f_ax_of, proves
from sitemodel.pull_tests.proof import ProofAnswer, ProofReading, ProofRule, evaluate_proof, proof_rule
from sitemodel.pull_tests.readings import Failure, PullSeries, Reading, Specimen
from sitemodel.pull_tests.sample_plan import Candidate, Pick, SamplePlan, sample_plan

__all__ = [
    "Candidate",
    "Estimate",
    "Evaluation",
    "Failure",
    "Pick",
    "ProofAnswer",
    "ProofReading",
    "ProofRule",
    "PullSeries",
    "Reading",
    "SamplePlan",
    "Specimen",
    "evaluate",
    "evaluate_proof",
    "f_ax_of",
    "proof_rule",
    "proves",
    "sample_plan",
]
