"""What crossing days are in regions, with GDAL's rasteriser and numpy.

usage: regions.py FOLDER GEOJSON RUNS ROWS COLS WEST SOUTH EAST NORTH

FOLDER holds days.f32, NaN for none; regions.f32 is written there, a row a
region: km², the share that has a day, and 10 %, 50 % and 90 % of the days by
area, NaN for none.
"""
import sys

import numpy as np
from osgeo import gdal, ogr

from best import best, tell

gdal.UseExceptions()


def rasterised(path, rows, cols, box):
    """The number from 1 of the region each cell's middle lies in."""
    west, south, east, north = box
    source = ogr.Open(path)
    numbered = ogr.GetDriverByName("Memory").CreateDataSource("")
    layer = numbered.CreateLayer("regions", source.GetLayer(0).GetSpatialRef())
    layer.CreateField(ogr.FieldDefn("number", ogr.OFTInteger))
    count = 0
    for feature in source.GetLayer(0):
        count += 1
        copy = ogr.Feature(layer.GetLayerDefn())
        copy.SetField("number", count)
        copy.SetGeometry(feature.GetGeometryRef())
        layer.CreateFeature(copy)
    out = gdal.GetDriverByName("MEM").Create("", cols, rows, 1, gdal.GDT_Int32)
    out.SetProjection(layer.GetSpatialRef().ExportToWkt())
    out.SetGeoTransform((west, (east - west) / cols, 0, north, 0, (south - north) / rows))
    gdal.RasterizeLayer(out, [1], layer, options=["ATTRIBUTE=number"])
    return count, out.ReadAsArray()


def row_areas(rows, cols, box):
    """km² of a cell of each row on the WGS 84 ellipsoid (Snyder 1987, 3-12)."""
    west, south, east, north = box
    a, f = 6378.137, 1 / 298.257223563
    e2 = f * (2 - f)
    e = np.sqrt(e2)
    s = np.sin(np.radians(np.linspace(north, south, rows + 1)))
    zone = a * a * (1 - e2) / 2 * (s / (1 - e2 * s * s) + np.log((1 + e * s) / (1 - e * s)) / (2 * e))
    return (zone[:-1] - zone[1:]) * np.radians((east - west) / cols)


def summary(path, days, box):
    rows, cols = days.shape
    count, number = rasterised(path, rows, cols, box)
    inside = number > 0
    number, day = number[inside], days[inside]
    weight = np.broadcast_to(row_areas(rows, cols, box)[:, None], days.shape)[inside]
    area = np.bincount(number, weight, count + 1)[1:]
    dated = ~np.isnan(day)
    number, day, weight = number[dated], day[dated], weight[dated]
    covered = np.bincount(number, weight, count + 1)[1:]
    week = np.minimum((day - 1) % 365 // 7, 51).astype(int)
    weeks = np.bincount((number - 1) * 52 + week, weight, count * 52).reshape(count, 52)
    order = np.lexsort((day, number))
    number, day, weight = number[order], day[order], weight[order]
    up_to = np.cumsum(weight)
    first = np.searchsorted(number, np.arange(1, count + 1))
    before = np.concatenate([[0], up_to])[first]
    quantiles = np.full((3, count), np.nan)
    some = covered > 0
    for k, q in enumerate((0.1, 0.5, 0.9)):
        i = np.searchsorted(up_to, before + q * covered)
        quantiles[k, some] = day[i[some]]
    with np.errstate(invalid="ignore"):
        return np.stack([area, covered / area, *quantiles], axis=1), weeks


def main():
    folder, path, runs = sys.argv[1], sys.argv[2], int(sys.argv[3])
    shape = int(sys.argv[4]), int(sys.argv[5])
    box = [float(v) for v in sys.argv[6:10]]
    days = np.fromfile(folder + "/days.f32", np.float32).reshape(shape)
    wall, cpu, (table, weeks) = best(runs, lambda: summary(path, days, box))
    table.astype(np.float32).tofile(folder + "/regions.f32")
    tell(wall, cpu, tools=f"GDAL {gdal.__version__}, numpy {np.__version__}")


main()
