import sys, subprocess, tempfile, collections, random
from pathlib import Path
from concurrent.futures import ProcessPoolExecutor
sys.path.insert(0,"tests/notation")
import music21, reference, compared
C=Path(music21.__file__).parent/"corpus"
def work(args):
    lp,p=args
    res=[]
    try:
        for i,(pl,notes,why) in enumerate(reference.read(p),1):
            with tempfile.TemporaryDirectory() as d:
                out=Path(d)/"o.toml"
                done=subprocess.run([lp,"adopt",str(p),"--part",str(i),"--out",str(out)],capture_output=True,text=True)
                if done.returncode==2 or not out.exists():
                    res.append((i,"refused",done.stderr.split("\n")[0],[])); continue
                if notes is None: res.append((i,"none",why,[])); continue
                told=compared.differences(compared.ours(out),notes)
                listed=compared.rows(done.stderr)
                sil=compared.unlisted(told,listed)
                if not told: res.append((i,"exact","",[]))
                elif all(t.octave for t in told) and not sil: res.append((i,"octaves","",[]))
                else: res.append((i,"silent" if sil else "listed",f"{len(told)} {len(sil)}",[f"{t.bar}: {t.what}" for t in (sil or told)][:4]+listed[:3]))
    except Exception as e:
        import traceback; res.append((0,"error",traceback.format_exc()[-300:],[]))
    return str(p),res
if __name__=="__main__":
    lp=sys.argv[1]; n=int(sys.argv[2]); pat=sys.argv[3] if len(sys.argv)>3 else ""
    files=[p for e in ("*.mxl","*.xml","*.musicxml") for p in sorted(C.rglob(e)) if pat in str(p)]
    random.Random(1).shuffle(files)
    files=[f for f in files if f.stat().st_size<400000 or n>600][:n]
    tot=collections.Counter()
    with ProcessPoolExecutor(2) as ex:
        for p,res in ex.map(work,[(lp,f) for f in files]):
            for i,k,why,more in res:
                tot[k]+=1
                if k not in("exact","octaves"): print(p.split("corpus/")[-1],i,k,why,more,flush=True)
    print(tot)
