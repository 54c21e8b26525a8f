#!/usr/bin/python3
"""Makes tests/reference/junctions.csv: loss coefficients where air comes together, by the fluids library.

Run from the project's folder: /usr/bin/python3 tests/oracle/junctions.py > tests/reference/junctions.csv
"""
import platform

import fluids
from fluids.fittings import K_branch_converging_Crane, K_run_converging_Crane

print("# junctions.csv - converging tees and wyes: coefficients on the velocity pressure of all the air")
print(f"# computed by tests/oracle/junctions.py with fluids {fluids.__version__} (Crane, Technical Paper 410, 2009),",
      f"python {platform.python_version()}")
print("# Qb/Qc: the branch's share of the air; Ab/Ac: its area over that of the run, which keeps its area")
print("angle_deg,area_ratio,flow_ratio,K_branch,K_run")
for angle in (30, 45, 60, 90):
    for area in (0.1, 0.2, 0.3, 0.35, 0.355, 0.4, 0.5, 0.7, 1.0):
        for flow in (0.05, 0.1, 0.2, 0.3, 0.39, 0.41, 0.5, 0.7, 0.9):
            sizes = {"D_run": 0.3, "D_branch": 0.3 * area**0.5, "Q_run": 1 - flow, "Q_branch": flow, "angle": angle}
            # 0.35 sits on a step of the relation; the root must not push it over.
            if area == 0.35:
                sizes["D_branch"] = 0.3 * (area - 1e-9) ** 0.5
            print(f"{angle},{area},{flow},{K_branch_converging_Crane(**sizes):.6f},{K_run_converging_Crane(**sizes):.6f}")
