"""Stick plans against known optima. Where each instance and its optimum come from: cutting/SOURCES.md."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.certificate_check import faults
from tests.plans import ELSEWHERE, check, check_elsewhere, read_instance, read_job
from tubeframe.fabrication.cutting.document import cut_plan_document
from tubeframe.fabrication.cutting.effort import Effort
from tubeframe.fabrication.cutting.patterns import taken_by
from tubeframe.fabrication.cutting.plan import PlanStatus
from tubeframe.fabrication.cutting.planning import plan_cuts
from tubeframe.fabrication.cutting.search import cheapest_cover

LARGE = ("250", "400")
FILES = sorted((Path(__file__).parent / "cutting").glob("*.cut"))
PUBLISHED = [
    # E. Falkenauer, A hybrid grouping genetic algorithm for bin packing, Journal of Heuristics 2 (1996) 5-30
    "falkenauer_u",
    # A. Scholl, R. Klein, C. Juergens, BISON, Computers and Operations Research 24 (1997) 627-645
    "scholl_1",
    # P. Schwerin, G. Waescher, The bin-packing problem, ITOR 4 (1997) 377-389
    "schwerin_1",
]


def _plan(instance):
    return plan_cuts(instance.needs, instance.stocks, saw=instance.saw, currency="USD")


@pytest.mark.parametrize(
    "path",
    [pytest.param(p, marks=[pytest.mark.slow] if p.stem[7:10] in LARGE else []) for p in FILES],
    ids=lambda p: p.stem,
)
def test_the_known_optimum_is_reached_and_proved(path, tmp_path):
    instance = read_instance(path)
    plan = _plan(instance)
    check(plan, instance.needs, instance.stocks, instance.saw)
    check_elsewhere(plan, instance, tmp_path)

    assert plan.status is PlanStatus.OPTIMAL
    assert plan.cost == pytest.approx(instance.optimum)
    assert all(c.proves == c.cost for c in plan.certificates)


@pytest.mark.parametrize("name", PUBLISHED)
def test_published_instances_that_may_not_be_copied_here(name, tmp_path):
    paths = sorted((ELSEWHERE / "data" / name).glob("*.cut"))[:2]
    if not paths:
        pytest.skip("the published instances are not at hand")
    for path in paths:
        instance = read_instance(path)
        plan = _plan(instance)
        check(plan, instance.needs, instance.stocks, instance.saw)
        check_elsewhere(plan, instance, tmp_path)

        assert plan.status is PlanStatus.OPTIMAL
        assert plan.cost == pytest.approx(instance.optimum)


@pytest.mark.parametrize("number", range(3))
def test_published_instances_of_many_stick_lengths(number):
    """T. G. Crainic, G. Perboli, W. Rei, R. Tadei, Computers and Operations Research 38 (2011) 1474-1482."""
    paths = sorted((ELSEWHERE / "data" / "vs_crainic1").glob("*.cut"))[number : number + 1]
    if not paths:
        pytest.skip("the published instances are not at hand")
    job, optimum = read_job(paths[0])
    cover = cheapest_cover(job, Effort())

    assert (cover.cost, cover.bound) == (optimum, optimum)
    for counts in zip(*(p.counts for p in cover.patterns for _ in range(p.times)), job.demands, strict=True):
        assert sum(counts[:-1]) >= counts[-1]
    assert all(taken_by(job, p) <= job.sticks[p.stick].capacity for p in cover.patterns)


@pytest.mark.parametrize("name", ["Waescher_TEST0054", "Waescher_TEST0075"])
def test_hard_instances_that_only_late_dives_solve(name):
    """G. Waescher, T. Gau, Heuristics for the integer cutting stock problem, OR Spektrum 18 (1996) 131-144."""
    path = ELSEWHERE / "data" / "waescher_gau" / f"{name}.cut"
    if not path.exists():
        pytest.skip("the published instances are not at hand")
    job, optimum = read_job(path)
    cover = cheapest_cover(job, Effort(10**15, seconds=60.0))

    assert (cover.cost, cover.bound) == (optimum, optimum)


def _certificate():
    instance = read_instance(next(p for p in FILES if p.stem == "gilmore_gomory_1961"))
    return cut_plan_document(_plan(instance))["certificate"][0]


def test_a_certificate_that_claims_more_than_it_proves_is_found_out():
    certificate = _certificate()
    assert faults(certificate) == []

    assert faults({**certificate, "proves": certificate["proves"] + 1, "cost": certificate["cost"] + 1})


@pytest.mark.parametrize("change", [{"weights": []}, {"weights": [[1, 1, 1]]}, {"proves": 0.5}])
def test_a_spoilt_certificate_is_found_out(change):
    assert faults({**_certificate(), **change})
