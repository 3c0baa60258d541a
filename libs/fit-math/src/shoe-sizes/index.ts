export {
  footLengthOfSize,
  sizesOfFoot,
  sizeSystems,
  type SizeInSystem,
  type SizeSystem,
} from './shoe-sizes.js';
