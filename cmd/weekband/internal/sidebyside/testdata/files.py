"""GeoTIFF files read and written with GDAL.

usage: files.py read FOLDER THREADS RUNS ROWS COLS
       files.py write FOLDER THREADS RUNS ROWS COLS

read reads FOLDER/normals/tavg-*.tif into °C and writes them to read.f32, NaN
for none. write writes days.f32 of a folder, NaN for none, as theirs.tif, and
what it reads in ours.tif to read.f32.
"""
import glob
import os
import sys
from concurrent.futures import ThreadPoolExecutor

import numpy as np
from osgeo import gdal

from best import best, tell

gdal.UseExceptions()
NODATA = -9999


def read(path):
    file = gdal.Open(path)  # a band lives as long as its file
    band = file.GetRasterBand(1)
    raw = band.ReadAsArray()
    values = raw.astype(np.float32)
    values *= np.float32(band.GetScale() or 1)
    values[raw == band.GetNoDataValue()] = np.nan
    return values


def write(path, values, threads):
    rows, cols = values.shape
    options = ["COMPRESS=DEFLATE", "PREDICTOR=3", f"NUM_THREADS={threads}"]
    out = gdal.GetDriverByName("GTiff").Create(path, cols, rows, 1, gdal.GDT_Float32, options)
    out.SetGeoTransform((-125, 58.5 / cols, 0, 49.9, 0, -25.9 / rows))
    band = out.GetRasterBand(1)
    band.SetNoDataValue(NODATA)
    band.WriteArray(np.where(np.isnan(values), np.float32(NODATA), values))
    band.FlushCache()
    out.FlushCache()


def main():
    mode, folder, threads, runs = sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])
    shape = int(sys.argv[5]), int(sys.argv[6])
    if mode == "read":
        paths = sorted(glob.glob(os.path.join(folder, "normals", "tavg-*.tif")))
        with ThreadPoolExecutor(threads) as pool:
            wall, cpu, months = best(runs, lambda: np.stack(list(pool.map(read, paths))))
        months.tofile(os.path.join(folder, "read.f32"))
    else:
        days = np.fromfile(os.path.join(folder, "days.f32"), np.float32).reshape(shape)
        path = os.path.join(folder, "theirs.tif")
        wall, cpu, _ = best(runs, lambda: write(path, days, threads))
        read(os.path.join(folder, "ours.tif")).tofile(os.path.join(folder, "read.f32"))
    tell(wall, cpu, tools=f"GDAL {gdal.__version__}, numpy {np.__version__}")


main()
