/** The style of the page: dark on white, read on a screen or printed on A4 or Letter, in colour or not. */
export const style = `
:root{color-scheme:light}
*{box-sizing:border-box}
html{font:16px/1.45 system-ui,sans-serif;color:#1a1a1a;background:#fff}
body{margin:0}
main,header,nav,footer{max-width:60rem;margin:0 auto;padding:0 1.25rem}
h1{font-size:1.75rem;line-height:1.2;margin:1.2rem 0 .3rem;overflow-wrap:anywhere}
h2{font-size:1.25rem;margin:2.2rem 0 .6rem;padding-bottom:.2rem;border-bottom:2px solid #1a1a1a}
h3{font-size:1.02rem;margin:1.4rem 0 .4rem}
h4{font-size:.9rem;margin:1rem 0 .3rem;color:#444}
p{margin:.4rem 0;overflow-wrap:anywhere}
a{color:#0b4f8a}
code{font-family:ui-monospace,monospace;font-size:.88em;overflow-wrap:anywhere}
table{border-collapse:collapse;width:100%;table-layout:fixed;margin:.4rem 0 1rem;font-size:.88rem}
caption{text-align:left;font-weight:600;padding:.2rem 0;color:#444}
th,td{text-align:left;vertical-align:top;padding:.28rem .55rem .28rem 0;border-bottom:1px solid #c8c8c8;overflow-wrap:anywhere;white-space:pre-line}
thead th{border-bottom:1.5px solid #1a1a1a;font-size:.8rem;color:#444}
tbody th{font-weight:500}
td.when{color:#505050;font-size:.8rem}
td.value,span.value{font-weight:600}
span.when{color:#505050;font-size:.8rem}
.front td.value{font-size:.95rem}
ul.ink{list-style:none;padding:0;display:grid;grid-template-columns:1fr 1fr;gap:.7rem 1.5rem}
ul.ink li{border-bottom:1px solid #1a1a1a;padding-top:1.3rem;font-size:.8rem;color:#444;overflow-wrap:anywhere}
tr.group th{font-weight:600;padding-top:.7rem;border-bottom:1px solid #1a1a1a}
td.lacking{font-weight:400;color:#6b3b00;font-style:italic}
tr.mark th,tr.mark td{font-style:italic;color:#444;font-weight:400}
.d1 th{padding-left:1rem}.d2 th{padding-left:2rem}.d3 th{padding-left:3rem}
.d4 th,.d5 th,.d6 th{padding-left:4rem}
.d1 th,.d2 th,.d3 th,.d4 th,.d5 th,.d6 th{font-weight:400;color:#444}
.practice{background:#8c0d0d;color:#fff;text-align:center;padding:.9rem 1rem;margin:0 -1.25rem}
.practice strong{display:block;font-size:3.4rem;line-height:1;letter-spacing:.18em;margin-right:-.18em}
.practice span{display:block;margin-top:.4rem}
.watermark{display:none}
.state{display:inline-block;border:1.5px solid #1a1a1a;padding:.1rem .55rem;font-weight:600;margin:.3rem 0}
.state.open{border:3px double #8c0d0d;color:#8c0d0d}
.alert{border:2.5px solid #8c0d0d;padding:.5rem .9rem;margin:1rem 0;break-inside:avoid}
.alert h2{border:0;margin:.2rem 0;color:#8c0d0d}
.alert li{margin:.3rem 0}
.badge{display:inline-block;padding:.05rem .5rem;font-size:.82rem;font-weight:600;overflow-wrap:anywhere}
.badge.witnessed{background:#123f22;color:#fff;border:1.5px solid #123f22}
.badge.self{background:#fff;color:#1a1a1a;border:1.5px dashed #1a1a1a}
.badge.overruled{background:#fff;color:#8c0d0d;border:3px double #8c0d0d}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.void{text-decoration:line-through}
.worked{margin:.3rem 0 .6rem;padding-left:1.4rem}
.worked li{font-family:ui-monospace,monospace;font-size:.86rem;overflow-wrap:anywhere}
.formula{border:1px solid #c8c8c8;padding:.3rem .6rem;display:block}
.source{font-size:.86rem;color:#444}
.warning{border-left:4px solid #8c0d0d;padding-left:.7rem}
figure{margin:1rem 0;break-inside:avoid}
figure svg{max-width:100%;height:auto;max-height:20rem;display:block}
figure.photo img{max-width:100%;max-height:22rem;display:block}
figcaption{font-size:.88rem;color:#444;margin-top:.3rem}
.strip svg{display:block;max-width:none;max-height:none;margin:5mm 0}
.strip .side{display:flex;gap:8mm}.strip .side>svg{flex:none;margin:0}
.tags{display:flex;flex-wrap:wrap;gap:5mm;align-items:flex-start}
.tag{border:.2mm dashed #1a1a1a;padding:2.5mm;display:flex;gap:2mm;justify-content:space-between;line-height:1.25;break-inside:avoid}
.tag ul{list-style:none;margin:0;padding:0;min-width:0}.tag li{margin:0 0 .35mm;overflow-wrap:anywhere}.tag svg{flex:none}
nav ul{display:flex;flex-wrap:wrap;gap:.2rem 1rem;list-style:none;padding:0;margin:.6rem 0;font-size:.88rem}
footer{font-size:.84rem;color:#444;margin-bottom:2rem}
@media (max-width:40rem){table,thead,tbody,tr{font-size:.84rem}}
@page{margin:11mm 13mm 13mm;@bottom-left{content:var(--job);font:8pt system-ui,sans-serif;color:#444}@bottom-right{content:counter(page) " / " counter(pages);font:8pt system-ui,sans-serif;color:#444}}
@media print{
html{font-size:9pt;line-height:1.25}
main,header,footer{max-width:none;padding:0}
nav{display:none}
.practice{margin:0}
h2,h3,h4,caption{break-after:avoid}
tr,li{break-inside:avoid}
thead{display:table-header-group}
h2{margin:.45rem 0 .15rem;font-size:1.12rem;border-bottom-width:1.2px}
h1{margin:.3rem 0 .2rem;font-size:1.5rem}
.practice{padding:.35rem}.practice strong{font-size:1.7rem}
table{margin:.2rem 0 .5rem}
.alert{margin:.35rem 0;padding:.1rem .8rem}.alert ul{margin:.1rem 0;padding-left:1.1rem}.alert li{margin:.06rem 0}
.first-work,.first-record{break-before:page}
.first-work h2,.first-record h2{margin-top:0}
.work table{font-size:.74rem;line-height:1.15;margin-bottom:.12rem}.work th,.work td{padding-top:.04rem;padding-bottom:.04rem}.work h2{margin-top:.35rem;font-size:1.02rem}.work p{font-size:.74rem;margin:.1rem 0}.work .badge{font-size:.74rem;padding:0 .35rem}
ul.ink{grid-template-columns:repeat(4,1fr)}ul.ink li{padding-top:1.2rem}
.front ul{margin:.2rem 0;padding-left:1.2rem}.front ul.ink{padding:0}
th,td{padding-top:.1rem;padding-bottom:.1rem}
#job thead,#next thead{display:none}.front{zoom:var(--fit)}
.front th,.front td{padding-top:.06rem;padding-bottom:.06rem}.front h2{margin-top:.3rem}.front table{margin:.1rem 0 .3rem}
figure{margin:.2rem 0}
.figures{display:grid;grid-template-columns:1fr 1fr;gap:2mm 6mm;align-items:start}
.figures .wide{grid-column:1/-1}
a{color:inherit;text-decoration:none}
.two{columns:2;column-gap:8mm}.two .place{break-inside:avoid}.two table{font-size:7.6pt}.two td.when{font-size:6.8pt}.two h3{margin-top:0;padding-top:.7rem}
#derivations{columns:2;column-gap:8mm}#derivations h2{column-span:all}#derivations h3{margin-top:0;padding-top:.6rem;font-size:8.6pt}
#derivations table,#derivations th{font-size:7pt}#derivations th,#derivations td{padding-top:.08rem;padding-bottom:.08rem}#derivations .formula,#derivations .worked li,#derivations p{font-size:6.8pt}
.practice,.badge{print-color-adjust:exact;-webkit-print-color-adjust:exact}
.watermark{display:block;position:fixed;left:0;right:0;top:32%;text-align:center;opacity:.1;pointer-events:none}
.watermark svg{width:100%;height:auto}
.strip{break-inside:avoid}
figure svg{max-height:52mm}
figure.photo img{max-height:70mm}
}
`.trim();
