"""A house whose codes are as long as they may be: sixteen signs of leaf, blend, vitola, buncher."""

from __future__ import annotations

FILLER = {
    "VOLADO-RIO-ABAJ1": "volado",
    "SECO-VALLE-ALTO2": "seco",
    "VISO-LOMA-NORTE3": "viso",
    "LIGERO-CORONA-44": "ligero",
    "MEDIO-TIEMPO-555": "medio tiempo",
}
COVERS = {"CAPOTE-SUMATRA-6": "binder", "CAPA-CONNECTIC-7": "wrapper"}
BLEND = "LIGA-RESERVA-999"
VITOLAS = {
    "CHURCHILL-GRANDE": (52, 178, 19.4),
    "DOBLE-CORONA-EXT": (60, 194, 30.2),
    "ROBUSTO-ESPECIAL": (50, 127, 12.9),
}
BENCHES = {
    "7": ("BONCHERO-MAYO-01", "DOBLE-CORONA-EXT"),
    "100-NORTE": ("BONCHERO-MAYO-02", "ROBUSTO-ESPECIAL"),
}


def long_house() -> str:
    """Its house book."""
    parts = ", ".join(f'"{code}" = {n}' for n, code in enumerate(FILLER, start=1))
    return "\n".join(
        [
            '[house]\nname = "Casa"\nstandard_moisture = "13 %"\nscale_division = "0.1 g"',
            'tolerance = "4 %"\nreadings = 5\nweigh_every = "60 min"',
            *(
                f'[[leaf]]\ncode = "{code}"\nuse = "filler"\nclass = "{of}"\nmoisture = "13 %"\n'
                'half_leaf = "2 g"\npiece = 0.25\nprice = 12.0\nstrength = 3'
                for code, of in FILLER.items()
            ),
            *(
                f'[[leaf]]\ncode = "{code}"\nuse = "{use}"\nmoisture = "18 %"\nhalf_leaf = "3 g"\n'
                'pieces = 1\nbuild = "0.3 mm"\non_cigar = "50 g/m^2"\noverlap = "30 %"\n'
                "price = 24.0"
                for code, use in COVERS.items()
            ),
            f'[[blend]]\ncode = "{BLEND}"\nparts = {{ {parts} }}',
            'binder = "CAPOTE-SUMATRA-6"\nwrapper = "CAPA-CONNECTIC-7"',
            *(
                f'[[vitola]]\ncode = "{code}"\nring = {ring}\nlength = "{mm} mm"\n'
                "piece_rate = 123.0\nbox = 360.0\nprice = 98000.0\n"
                f'[[approved]]\nblend = "{BLEND}"\nvitola = "{code}"\nfiller = "{grams} g"\n'
                'bunches = 30\nspread = "0.3 g"'
                for code, (ring, mm, grams) in VITOLAS.items()
            ),
            *(
                f'[[bench]]\nnumber = "{number}"\nbuncher = "{buncher}"\nblend = "{BLEND}"\n'
                f'vitola = "{vitola}"\nquota = 12000'
                for number, (buncher, vitola) in BENCHES.items()
            ),
        ]
    )
