"""All that holds an anchor, read together: kits, distances, pull tests."""

from dataclasses import dataclass

from service.intake.bolted_methods import read_other_kits
from service.intake.fixing import read_kit, read_seat_rules, refuse_unsound_kit
from service.intake.pull_tests import noticed_pulls, read_pull_tests
from service.schemas.fixing import FixingInput
from service.schemas.pull_tests import PullSeriesInput
from sitemodel.anchors.seats import SeatRules
from sitemodel.buildup import BuildUp
from sitemodel.fixings import AnchorKit, Hook, SpreaderBlockKit
from sitemodel.pull_tests import Evaluation
from sitemodel.sources import Assumption


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadFixing:
    """What the brief says of the fixing, in the words of the model."""

    kit: SpreaderBlockKit
    other_kits: tuple[AnchorKit, ...]
    rules: SeatRules
    pulls: tuple[Evaluation, ...]
    assumptions: tuple[Assumption, ...]


def read_fixing(
    stated: FixingInput, pull_tests: tuple[PullSeriesInput, ...], build_up: BuildUp, hook: Hook
) -> ReadFixing:
    """Kits, distances and pull tests.

    Raises:
        InputError: parts or readings that cannot be.
    """
    pulls = read_pull_tests(pull_tests, stated.screws.diameter, build_up.sip.outer_skin.thickness)
    kit, of_kit = read_kit(stated, build_up, hook.bolt_rows, pulls)
    refuse_unsound_kit(build_up, hook, kit)
    rules, of_rules = read_seat_rules(stated, build_up)
    return ReadFixing(
        kit=kit,
        other_kits=read_other_kits(stated, kit, pulls),
        rules=rules,
        pulls=pulls,
        assumptions=(*of_kit, *of_rules, *noticed_pulls(pulls)),
    )
