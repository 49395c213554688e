"""Is what the company writes of itself in agreement with itself?"""
from collections.abc import Iterator

from generator.intake.yaml_tree import Tree
from generator.model.company import Company
from generator.model.label_sheet import PAPERS
from generator.terms.problem import Problem
from generator.terms.show import figure

# Inches are written in mm to two places.
ROUNDING_MM = 0.05


def company_checks(tree: Tree, company: Company) -> Iterator[Problem]:
    """Labels that do not fit on their paper."""
    own = company.label_sheet
    if own is None:
        return
    stock = own.stock()
    for key, needed, there in zip(("columns", "rows"), stock.used, PAPERS[own.paper]):
        if needed > there + ROUNDING_MM:
            yield tree.problem(("label_sheet", key), f"the last label would end {figure(needed, 'mm')} from the paper's edge; {own.paper} has {figure(there, 'mm')}.",
                               "Measure the sheet again: edge, labels and gaps.")
