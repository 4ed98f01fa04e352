"""How a page looks: black on white, large enough to read, cut well on A4 and Letter."""

STYLE = """
@page{margin:14mm 12mm 16mm;@bottom-right{content:counter(page) " / " counter(pages);font:9pt \
sans-serif}}
*{box-sizing:border-box}
body{font:11pt/1.35 "Liberation Sans",Arial,sans-serif;color:#000;background:#fff;margin:0 auto;\
max-width:190mm;padding:4mm}
h1{font-size:18pt;margin:0 0 3mm}
h2{font-size:14pt;margin:7mm 0 2mm;border-bottom:1pt solid #000;break-after:avoid}
h3{font-size:12pt;margin:4mm 0 1mm;break-after:avoid}
p{margin:1mm 0 2mm}.small{font-size:9.5pt}.look{border-left:3pt solid #000;padding-left:2mm}
.facts{display:flex;flex-wrap:wrap;gap:2mm 6mm;margin:2mm 0}
.facts dt{font-size:9.5pt}.facts dd{margin:0;font-size:13pt;font-weight:bold}
h2+p{break-after:avoid}ul{margin:1mm 0 2mm;padding-left:6mm}
table{border-collapse:collapse;width:100%;font-size:9pt;margin:2mm 0 4mm}.dense{font-size:8pt}
caption{text-align:left;font-weight:bold;padding-bottom:1mm;break-after:avoid}
thead{display:table-header-group}tr{break-inside:avoid}
th,td{padding:.6mm 1.2mm;text-align:left;vertical-align:bottom;border-bottom:.4pt solid #000}
.dense th,.dense td{padding:.6mm .8mm}
.last{break-before:avoid}
thead th{border-bottom:1pt solid #000}tbody th{font-weight:normal}.last th,.last td{font-weight:\
bold}
tbody th,td{overflow-wrap:break-word}
small{font-weight:normal;font-size:.9em}
.r{text-align:right;font-variant-numeric:tabular-nums}td.r{white-space:nowrap;overflow-wrap:normal}
.hand tbody{break-inside:avoid}.hand td,.hand tbody th{height:6.5mm;border-right:.4pt solid #000}
.hand th[colspan]{font-weight:bold;border-right:0;padding-top:3mm}
.hand th:nth-child(6){width:22mm}.hand th:nth-child(7){width:30mm}
.sign{display:flex;gap:8mm;margin-top:12mm;break-inside:avoid}
.sign div{flex:1;border-top:.6pt solid #000;padding-top:1mm;font-size:9.5pt}
figure{margin:2mm 0;break-inside:avoid}figcaption{font-weight:bold;margin-bottom:1mm}
svg{max-width:100%;height:auto;display:block}
.whole{break-inside:avoid}.whole svg{width:82%}
.beside{orphans:1;widows:1}.beside figure{display:inline-block;width:48%;\
margin-right:1.5%;vertical-align:top}
@media print{body{max-width:none;padding:0}}
"""
CARDS = """
@page{margin:5mm;@bottom-right{content:none}}
body{max-width:none;padding:0;margin:0}h1{position:absolute;left:-999mm}
.sheet{break-after:page;width:198mm;font-size:0;line-height:0}.sheet:last-child{break-after:auto}
.ticket{display:inline-block;vertical-align:top;width:99mm;min-height:134mm;position:relative;\
border:.4pt dashed #000;padding:5mm 5mm 12mm;font-size:9.5pt;line-height:1.35;\
overflow-wrap:anywhere}
.ticket h2{margin:0;border:0;font-size:16pt;line-height:1.15}.ticket p{margin:0 0 1mm}
.big{display:grid;grid-template-columns:28mm 35mm 1fr;align-items:baseline;border-bottom:.4pt \
solid #000}
.big b{font-size:25pt;line-height:1.15;text-align:right;padding-right:2mm;white-space:nowrap}
.big b small{font-size:.55em}
.few .big{grid-template-columns:23mm 40mm 1fr}.few .big b{font-size:34pt}
.many{font-size:8.5pt}.many .big{grid-template-columns:36mm 25mm 1fr}.many .big b{font-size:14pt}
.long{display:block;width:198mm}.long .big{grid-template-columns:70mm 40mm 1fr}
.ticket dl{margin:1.5mm 0}.ticket dl div{display:flex;gap:2mm}
.ticket dt{flex:0 0 25mm}.ticket dd{margin:0;font-weight:bold;flex:1;min-width:0}
.ticket p.code{position:absolute;bottom:4mm;right:5mm;margin:0;font:bold 12pt monospace}
"""
"""Added for cards: two by two, an A6 less what a printer cannot reach, the same on both papers.

A card that needs more room is higher, and a long one wider and over several pages: nothing of
it is cut off."""
