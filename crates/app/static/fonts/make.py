"""Makes the fonts of the workbench from those of the report: a Latin subset, renamed as their licence asks.

Run from the root of the workspace, after `pip install fonttools brotli`: python3 crates/app/static/fonts/make.py
"""
from fontTools import subset
from fontTools.ttLib import TTFont
src="crates/report/fonts/"
out="crates/app/static/fonts/"
uni="U+0020-007E,U+00A0-017F,U+0192,U+02C6,U+02DC,U+0300-0304,U+0307,U+0308,U+0386-03CE,U+2000-200A,U+2010-2015,U+2018-201E,U+2020-2022,U+2026,U+2030,U+2032,U+2033,U+2039,U+203A,U+2044,U+2070-2089,U+20AC,U+2122,U+2126,U+2150-215E,U+2190-2193,U+2212,U+2215,U+2248,U+2260,U+2264,U+2265,U+00BC-00BE"
for name,to,fam,sub in [("SourceSans3_400Regular","ribband-sans-400","Ribband Sans","Regular"),("SourceSans3_600SemiBold","ribband-sans-600","Ribband Sans","SemiBold"),("SourceSerif4_600SemiBold","ribband-serif-600","Ribband Serif","SemiBold")]:
    o=subset.Options(); o.flavor="woff2"; o.layout_features=["kern","liga","tnum","lnum","frac","mark","mkmk","ccmp","numr","dnom","locl"]; o.hinting=False; o.desubroutinize=True
    f=subset.load_font(src+name+".ttf",o)
    s=subset.Subsetter(o); s.populate(unicodes=subset.parse_unicodes(uni)); s.subset(f)
    for r in list(f["name"].names):
        if r.nameID in(1,16): f["name"].setName(fam,r.nameID,r.platformID,r.platEncID,r.langID)
        elif r.nameID in (2,17): f["name"].setName(sub,r.nameID,r.platformID,r.platEncID,r.langID)
        elif r.nameID==4: f["name"].setName(fam+" "+sub,4,r.platformID,r.platEncID,r.langID)
        elif r.nameID==6: f["name"].setName((fam+"-"+sub).replace(" ",""),6,r.platformID,r.platEncID,r.langID)
        elif r.nameID in (3,): f["name"].setName(fam+sub,3,r.platformID,r.platEncID,r.langID)
    subset.save_font(f,out+to+".woff2",o)
