// What of the chart library the charts need, for bundling.
import { init, use } from "echarts/core";
import { LineChart, ScatterChart } from "echarts/charts";
import { AriaComponent, GridComponent, MarkAreaComponent, MarkLineComponent, TooltipComponent } from "echarts/components";
import { CanvasRenderer } from "echarts/renderers";

use([
  LineChart, ScatterChart,
  AriaComponent, GridComponent, MarkAreaComponent, MarkLineComponent, TooltipComponent,
  CanvasRenderer,
]);

export { init };
