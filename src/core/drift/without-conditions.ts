import { type Conditions, fitConditions } from './conditions.ts';

/** Values less what their conditions explain; as they are where too few visits tell what that is. */
export function withoutConditions(conditions: readonly Conditions[], values: Float64Array): Float64Array {
  const model = fitConditions(conditions, values);
  return model === null ? values : values.map((x, i) => x - model.expected(conditions[i] as Conditions));
}
