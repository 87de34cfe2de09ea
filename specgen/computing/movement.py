from specgen.computing.inputs import Inputs, upward_to_sixteenth
from specgen.computing.registry import Outcome
def compute(inputs: Inputs) -> Outcome:
    a = {"coated-steel": 6.7e-6, "aluminum": 13e-6, "zinc": 12.2e-6, "copper": 9.8e-6}.get(inputs.choice("metal"), 9.6e-6)
    m = a * inputs.figure("panel_run", "in") * (inputs.figure("panel_temperature_high", "degF") - inputs.figure("panel_temperature_low", "degF"))
    q = upward_to_sixteenth(max(m, 0))
    return Outcome({"panel_movement": q, "gap_needed": q, "travel_needed": q}, ())
