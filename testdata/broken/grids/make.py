# Makes the broken grids of this folder from the sound ones in ../world: python3 make.py
# TIFF 6.0, GeoTIFF 1.1 (OGC 19-008r4), NetCDF classic (CDF-1).
import os,struct,math
B=os.path.dirname(os.path.dirname(os.path.abspath(__file__)))+'/'
G=B+'grids/'
march=open(B+'world/tavg-03.asc').read()
head=march[:march.index('\n',march.index('NODATA'))+1]; body=march[len(head):]
def w(name,b): open(G+name,'wb').write(b if isinstance(b,bytes) else b.encode())
def a(name,*subs):
    s=march
    for x,y in subs:
        assert x in s,(name,x); s=s.replace(x,y)
    w(name,s)
first=body.split('\n')[1].split()[2]
def val(old,new):  # in the third row
    lines=body.split('\n'); c=lines[2].split(); c[3]=new; lines[2]=' '.join(c); return head+'\n'.join(lines)
a('ncols-large.asc',('ncols 8','ncols 80'))
a('ncols-small.asc',('ncols 8','ncols 7'))
a('ncols-zero.asc',('ncols 8','ncols 0'))
a('ncols-negative.asc',('ncols 8','ncols -8'))
a('billions.asc',('ncols 8','ncols 1000000000'),('nrows 6','nrows 1000000000'))
a('cellsize-zero.asc',('cellsize 0.5','cellsize 0'))
a('cellsize-nan.asc',('cellsize 0.5','cellsize NaN'))
a('cellsize-comma.asc',('cellsize 0.5','cellsize 0,5'))
a('metres.asc',('xllcorner -52','xllcorner 500000'),('yllcorner 38','yllcorner 4200000'),('cellsize 0.5','cellsize 50000'))
a('swapped.asc',('xllcorner -52','xllcorner 38'),('yllcorner 38','yllcorner -152'))
a('key-twice.asc',('cellsize 0.5','cellsize 0.5\ncellsize 0.5'))
a('unknown-key.asc',('cellsize 0.5','cellwidth 0.5'))
a('no-corner.asc',('yllcorner 38\n',''))
w('word.asc',val(3,'cold'))
w('decimal-comma.asc',head+body.replace('.',','))
w('thousands.asc',val(3,"1'234"))
w('infinite.asc',val(3,'1e39'))
w('rows-short.asc',head+'\n'.join(body.split('\n')[:5])+'\n')
w('rows-long.asc',march+'5.0 5.0\n')
w('mark.asc',b'\xef\xbb\xbf'+march.encode())
w('utf16.asc',b'\xff\xfe'+march.encode('utf-16-le'))
w('header-only.asc',head)
w('empty.asc','')
a('other-grid.asc',('xllcorner -52','xllcorner -52.25'))
w('tenths.asc',head+'\n'.join(' '.join(x if x=='-9999' else str(round(float(x)*10)) for x in l.split()) for l in body.strip().split('\n'))+'\n')
w('kelvin.asc',head+'\n'.join(' '.join(x if x=='-9999' else '%.1f'%(float(x)+273.15) for x in l.split()) for l in body.strip().split('\n'))+'\n')
w('all-missing.asc',head+'\n'.join(' '.join(['-9999']*8) for _ in range(6))+'\n')
w('one-value.asc',head+'\n'.join(' '.join(['5.0']*8) for _ in range(6))+'\n')
w('upside-down.asc',head+'\n'.join(body.strip().split('\n')[::-1])+'\n')
w('gzipped.asc',b'\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\x03'+b'\x4b\x04\x00')

# --- TIFF: 12 bands of float32, 6 rows, 8 columns, one strip a band, pixels interleaved not
def layers():
    out=[]
    for m in range(1,13):
        t=open(B+'world/tavg-%02d.asc'%m).read().split()
        out.append([float(x) for x in t[12:]])
    return out
L=layers()
def tiff(order='<',entries={},bits=32,comp=1,bands=12,cut=None,photometric=1,pack=None,magic=42,loop=False,strip=None,geo=True):
    o=order
    data=b''.join(struct.pack(o+'48f',*l) for l in L[:bands]) if pack is None else pack
    heap=b'';base=8
    size=len(data)//bands
    tags={256:(4,[8]),257:(4,[6]),258:(3,[bits]*bands),259:(3,[comp]),262:(3,[photometric]),
      273:(4,[base+i*size for i in range(bands)]),277:(3,[bands]),278:(4,[6]),279:(4,[size]*bands),284:(3,[2]),
      338:(3,[0]*(bands-1)),339:(3,[3 if bits==32 else 1]*bands),
      33550:(12,[0.5,0.5,0]),33922:(12,[0,0,0,-52,41,0]),
      34735:(3,[1,1,0,3,1024,0,1,2,1025,0,1,1,2048,0,1,4326]),42113:(2,'-9999')}
    if not geo:
        for t in (33550,33922,34735): del tags[t]
    tags.update(entries)
    tags={k:v for k,v in tags.items() if v is not None and len(v[1])}
    fmt={2:'s',3:'H',4:'I',12:'d'};sz={2:1,3:2,4:4,12:8}
    at=base+len(data)
    vals=b'';recs=b''
    for t in sorted(tags):
        kind,v=tags[t]
        if kind==2: b=v.encode()+b'\0'; n=len(b)
        else: b=struct.pack(o+'%d%s'%(len(v),fmt[kind]),*v); n=len(v)
        if len(b)<=4: field=b.ljust(4,b'\0')
        else:
            field=struct.pack(o+'I',at+len(vals)); vals+=b
            if len(vals)%2: vals+=b'\0'
        recs+=struct.pack(o+'HHI',t,kind,n)+field
    ifd=at+len(vals)
    out=(b'II' if o=='<' else b'MM')+struct.pack(o+'HI',magic,ifd)+data+vals+struct.pack(o+'H',len(tags))+recs+struct.pack(o+'I',ifd if loop else 0)
    return out if cut is None else out[:cut]
w('sound.tif',tiff())
w('big-endian.tif',tiff('>'))
w('cut.tif',tiff(cut=900))
w('magic.tif',tiff(magic=45))
w('strips-beyond.tif',tiff(entries={273:(4,[4000000000]*12)}))
w('huge.tif',tiff(entries={256:(4,[60000]),257:(4,[60000]),278:(4,[60000])}))
w('compression.tif',tiff(comp=34712))
w('circle.tif',tiff(loop=True))
w('three-months.tif',tiff(bands=3))
w('palette.tif',tiff(bands=1,bits=8,photometric=3,pack=bytes(48),entries={284:(3,[1])}))
w('colours.tif',tiff(bands=3,bits=8,photometric=2,pack=bytes(144)))
w('no-place.tif',tiff(geo=False))
w('sixteen.tif',tiff(bits=16,pack=b''.join(struct.pack('<48h',*[int(round(x*10)) if x>-9000 else -9999 for x in l]) for l in L),entries={339:(3,[2]*12)}))
# a deflated strip that promises 192 bytes and holds 16 MB
import zlib
z=zlib.compress(bytes(16<<20),9)
w('bomb.tif',tiff(comp=8,bands=1,pack=z,entries={284:(3,[1])}))
# all tiles of a huge grid are the same few bytes
t=zlib.compress(bytes(4096*4096),9)
k=(32768//4096)**2
w('same-tiles.tif',tiff(comp=8,bands=1,bits=8,pack=t,entries={256:(4,[32768]),257:(4,[32768]),273:(4,[]),278:(4,[]),279:(4,[]),322:(4,[4096]),323:(4,[4096]),324:(4,[8]*k),325:(4,[len(t)]*k),284:(3,[1]),33550:(12,[4/32768,3/32768,0])}))

# --- NetCDF classic (CDF-1)
def nc(dims=(12,6,8),var='tavg',units='degC',rec=None,lie=None,latunits='degrees_north',swap=False,cut=None,drop=False,record=False,lon0=-51.75,nums=None):
    def name(s): b=s.encode(); return struct.pack('>I',len(b))+b+b'\0'*(-len(b)%4)
    def att(l):
        if not l: return struct.pack('>II',0,0)
        return struct.pack('>II',12,len(l))+b''.join(name(k)+(struct.pack('>IIf',5,1,v) if isinstance(v,float) else struct.pack('>II',2,len(v))+v.encode()+b'\0'*(-len(v)%4)) for k,v in l)
    T,R,C=dims
    order=['lon','lat'] if swap else ['lat','lon']
    size={'month':T,'lat':R,'lon':C}
    names=['month']+order
    lat=[38.25+0.5*i for i in range(R)][::-1]; lon=[lon0+0.5*i for i in range(C)]
    vals={'lat':lat,'lon':lon}
    data=[]
    for n in order: data.append((n,[names.index(n)],[('units',latunits if n=='lat' else 'degrees_east')],struct.pack('>%df'%size[n],*vals[n])))
    if not drop:
        data.append((var,[0,1,2],[('units',units),('missing_value',-9999.0)],b''.join(struct.pack('>48f',*l) for l in L)))
    def header(begins):
        h=b'CDF\x01'+struct.pack('>I',0 if record else 0)
        h+=struct.pack('>II',10,3)
        for n in names:
            s=size[n]
            if lie and n in lie: s=lie[n]
            if record and n=='month': s=0
            h+=name(n)+struct.pack('>I',s)
        h+=struct.pack('>II',0,0)
        h+=struct.pack('>II',11,len(data))
        for (n,d,at,b),beg in zip(data,begins):
            h+=name(n)+struct.pack('>I',len(d))+struct.pack('>%dI'%len(d),*d)+att(at)+struct.pack('>III',5,len(b)&0xffffffff,beg)
        return h
    n=len(header([0]*len(data)))
    begins=[];at=n
    for d in data: begins.append(at); at+=len(d[3])
    out=header(begins)+b''.join(d[3] for d in data)
    return out if cut is None else out[:cut]
w('sound.nc',nc())
w('cut.nc',nc(cut=1000))
w('no-variable.nc',nc(drop=True))
w('no-records.nc',nc(record=True))
w('wrong-unit.nc',nc(units='mm'))
w('huge.nc',nc(lie={'month':2000000000,'lat':2000000000}))
w('huge-lat.nc',nc(lie={'lat':400000000}))
w('swapped.nc',nc(swap=True))
w('lon-0-360.nc',nc(lon0=308.25))
w('version-9.nc',b'CDF\x09'+nc()[4:])
