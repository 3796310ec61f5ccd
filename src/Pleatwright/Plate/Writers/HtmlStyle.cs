namespace Pleatwright.Plate.Writers;

/// <summary>The style sheet of the page.</summary>
internal static class HtmlStyle
{
    public const string Sheet = """
        :root{--ink:#26303b;--quiet:#5d6672;--line:#c9c3b8;--accent:#2a6570;--alarm:#9a3b1f;--ground:#fffdf9;--card:#fff}
        @media (prefers-color-scheme:dark){:root{--ink:#e9e6df;--quiet:#b3b6ba;--line:#4b4f55;--accent:#8cc7cf;--alarm:#f0a48a;--ground:#1d2126;--card:#262b31}}
        *{box-sizing:border-box}
        html{font:400 1.0625rem/1.55 'Plate Text',system-ui,sans-serif;color:var(--ink);background:var(--ground);-webkit-text-size-adjust:100%}
        html.large{font-size:1.4rem}
        body{max-width:64rem;margin:0 auto;padding:clamp(1rem,4vw,3.5rem)}
        h1,h2{font-family:'Plate Display',Georgia,serif;font-weight:400;line-height:1.15;text-wrap:balance;overflow-wrap:anywhere}
        h1{font-size:clamp(2rem,6vw,3.25rem);margin:0}
        h2{font-size:1.6rem;margin:0 0 1rem;padding-bottom:.5rem;border-bottom:1px solid var(--line)}
        h3{font-size:1rem;margin:1.5rem 0 .4rem}
        .lead{font:italic 400 1.2rem/1.4 'Plate Display',Georgia,serif;color:var(--quiet);margin:.4rem 0 1.5rem}
        section{margin-top:3rem}
        figure{margin:0}
        .picture{border:1px solid var(--line);padding:.5rem;background:var(--card)}
        svg{display:block;width:100%;height:auto}
        .facts{columns:2 20rem;column-gap:2.5rem;margin:1.5rem 0}
        .facts div{display:grid;grid-template-columns:8rem 1fr;gap:.75rem;break-inside:avoid;padding:.2rem 0}
        .facts dt{font-size:.85rem;color:var(--quiet)}
        .facts dd{margin:0}
        nav ul{display:flex;flex-wrap:wrap;gap:.25rem 1.25rem;list-style:none;padding:.75rem 0;margin:0;border-block:1px solid var(--line)}
        a{color:var(--accent);text-underline-offset:.2em}
        nav a{display:inline-block;padding:.3rem 0}
        :focus-visible{outline:3px solid var(--accent);outline-offset:2px}
        .scroll{overflow-x:auto}
        table{border-collapse:collapse;width:100%;min-width:40rem}
        caption{text-align:left;font-weight:700;padding-bottom:.4rem}
        th,td{text-align:left;vertical-align:top;padding:.45rem .9rem .45rem 0;border-bottom:1px solid var(--line)}
        thead th{font-size:.85rem;font-weight:400;color:var(--quiet)}
        tbody th{overflow-wrap:anywhere}
        small{display:block;font-weight:400;color:var(--quiet)}
        .brick{display:inline-block;min-width:3.2em;padding:.05em 0;border-radius:.4em;text-align:center;font-weight:700;border:1px solid color-mix(in srgb,currentColor 35%,transparent);print-color-adjust:exact;-webkit-print-color-adjust:exact}
        .signs{list-style:none;padding:0;display:grid;grid-template-columns:repeat(auto-fit,minmax(19rem,1fr));gap:.6rem 1.5rem}
        .signs li{display:flex;gap:.8rem;align-items:center}
        .signs svg{flex:none;width:4rem;background:#fff;border-radius:2px}
        .columns{columns:19rem;column-gap:2.5rem}
        .columns>div{break-inside:avoid;overflow:hidden}
        .columns ul{list-style:none;padding:0;margin:0}.columns b{display:block;font-weight:400;font-size:.85rem;color:var(--quiet)}
        .proof ul{padding-left:1.1rem;margin:0}
        .columns li{margin-bottom:.35rem}
        .sheet{overflow:auto;max-height:90vh;background:#fff;border:1px solid var(--line);padding:.5rem}
        .sheet>div{margin:0 auto;width:var(--w)}
        .proof{border:2px solid var(--alarm);border-radius:.5rem;padding:1.25rem}
        .proof h2{border:0;padding:0;color:var(--alarm)}
        .proof li{margin-top:.5rem}
        .proof em{color:var(--quiet)}
        .error strong{color:var(--alarm)}
        .runs{width:auto;min-width:0;font-variant-numeric:tabular-nums}
        .runs th,.runs td{padding:.28rem 1rem .28rem 0}
        .runs tbody th{font-weight:700;white-space:nowrap}
        .runs td:nth-child(2),.runs td:nth-child(n+4):nth-child(-n+8),.runs td:nth-last-child(2){white-space:nowrap}
        .runs input{width:1.05rem;height:1.05rem;vertical-align:-.15em;accent-color:var(--accent)}
        .runs .met td{color:var(--accent)}
        .runs thead tr:first-child:not(:last-child) th,.runs tr:has(+.beneath) td{border-bottom:0;padding-bottom:0}
        .steps{list-style:none;padding:0;margin:0}
        .steps label{display:grid;grid-template-columns:1.5rem 2.2rem 1fr;gap:.4rem;padding:.4rem 0}
        .steps input{width:1.15rem;height:1.15rem;margin:.2rem 0 0;accent-color:var(--accent)}
        .steps input:checked~span{color:var(--quiet)}
        .steps span,.remark,.level{max-width:44rem}
        .remark{font-style:italic;color:var(--quiet)}
        .level{font-style:italic;color:var(--accent);border-left:3px solid var(--accent);padding-left:.8rem;margin:.4rem 0 .4rem 1.2rem}
        .drawn{display:grid;grid-template-columns:repeat(auto-fill,minmax(15rem,1fr));gap:1.2rem 2rem}
        .drawn svg{max-width:14rem;background:#fff;border-radius:2px}
        .drawn figcaption{font-size:.9rem;margin-top:.3rem}
        .chart .sheet{display:inline-block;vertical-align:top;margin:0 1rem 1rem 0;max-width:calc(100% - 1rem)}
        .care{border:1px solid var(--alarm);border-radius:.5rem;padding:1.25rem}
        .care h2{border:0;padding:0;margin-bottom:.4rem;font-size:1.2rem;color:var(--alarm)}
        .care p{margin:0}
        @media print{
        :root,html{--ink:#000;--quiet:#333;--line:#aaa;--accent:#1d5560;--alarm:#7f2b12;--ground:#fff;--card:#fff;color-scheme:only light}
        html{font-size:9.5pt;line-height:1.36}html.large{font-size:16pt}
        *{print-color-adjust:exact;-webkit-print-color-adjust:exact}
        body{max-width:none;padding:0}
        nav{display:none}
        p{margin:.38em 0;orphans:3;widows:3}
        h1{font-size:2.5rem}
        h2{font-size:1.55rem;margin-bottom:.5rem;padding-bottom:.25rem}
        h3{margin:.75rem 0 .25rem}
        .lead{margin:.2rem 0 .6rem}
        section{margin-top:1.4rem}
        .scroll,.sheet{overflow:visible;max-height:none}
        .sheet{border:0;padding:0}
        .sheet>div{max-width:100%;width:calc(var(--w)*.82)}
        .sheet svg{max-height:calc(100vh - 50mm)}
        .chart .sheet{margin:0 .8rem .3rem 0;max-width:calc(100% - .8rem)}
        .whole .sheet>div,.back .sheet>div{width:100%!important}
        .whole .sheet svg{max-height:calc(100vw - 32mm)}
        .large .whole .sheet svg{max-height:calc(100vw - 58mm)}
        .drawn{grid-template-columns:repeat(3,1fr);gap:.5rem 1.6rem}
        .large .drawn{grid-template-columns:1fr}
        .picture svg{max-height:50vh}
        .facts{columns:2 16rem;margin:.8rem 0}
        .facts div{grid-template-columns:6.5rem 1fr;padding:.1rem 0}
        table{min-width:0}
        thead{display:table-header-group}
        th,td{padding:.28rem .7rem .28rem 0}
        .runs{line-height:1.22}
        .runs th,.runs td{padding:.09rem .8rem .09rem 0}
        .runs tr:has(+.beneath){break-after:avoid}
        .runs input{width:.9rem;height:.9rem}
        .signs{grid-template-columns:repeat(auto-fit,minmax(16rem,1fr));gap:.3rem 1.2rem;margin:.4rem 0}
        .columns{columns:3 12rem;column-gap:1.6rem}
        .columns>div{break-inside:auto;overflow:visible}
        .columns h3:first-child{margin-top:.4rem}
        .steps label{padding:.2rem 0}
        .care{padding:.5rem .9rem}
        .care h2{font-size:1.1rem;margin-bottom:.15rem}
        .large .directions,.large .care{page:sideways}
        .large .runs th,.large .runs td{padding-right:.5rem}
        .large .runs td:nth-child(4),.large .runs td:nth-last-child(2){white-space:normal}
        .large .runs td:nth-child(n+5):nth-child(-n+8):not(:last-child){white-space:nowrap}
        .steps span,.remark,.level{max-width:none}
        .picture,.columns,.sheet,.back,figure,li,tr,caption,.care,svg{break-inside:avoid}
        h2,h2+p,h3,caption,thead,.chart p,.back p,.directions p:has(+.scroll),.runs tr:nth-child(-n+2),.runs tr:nth-last-child(2){break-after:avoid}
        .runs tr:last-child{break-before:avoid}
        .care{break-before:avoid}
        .whole{page:sideways;margin-top:0}
        @page{margin:17mm 17mm 19mm;@bottom-right{content:counter(page) " of " counter(pages);font:8pt 'Plate Text',system-ui,sans-serif;color:#5d6672}}
        @page sideways{size:landscape}
        }

        """;
}
