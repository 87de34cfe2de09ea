from specgen.calculations.record import OutsideMethod
from specgen.computing.inputs import Inputs
from specgen.computing.registry import Outcome


def compute(inputs: Inputs) -> Outcome:
    raise OutsideMethod("this is being written")
