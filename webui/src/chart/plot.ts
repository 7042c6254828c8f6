/** What the pictures are made of: of the library no more than this is loaded, and that late. */

export {
  areaY,
  axisX,
  axisY,
  barX,
  dot,
  gridX,
  gridY,
  lineY,
  link,
  plot,
  rectY,
  ruleX,
  ruleY,
  text,
  tickX,
} from '@observablehq/plot';
