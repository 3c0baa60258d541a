import type { Deployment } from 'kubernetes-types/apps/v1.js';
import type { HorizontalPodAutoscaler } from 'kubernetes-types/autoscaling/v2.js';
import type { Job } from 'kubernetes-types/batch/v1.js';
import type { ConfigMap, Namespace, Service } from 'kubernetes-types/core/v1.js';
import type { NetworkPolicy } from 'kubernetes-types/networking/v1.js';
import type { PodDisruptionBudget } from 'kubernetes-types/policy/v1.js';

/** What deploy/kubernetes is made of, as the package made from Kubernetes' published OpenAPI document types it. */
export interface Kinds {
  readonly ConfigMap: ConfigMap;
  readonly Deployment: Deployment;
  readonly HorizontalPodAutoscaler: HorizontalPodAutoscaler;
  readonly Job: Job;
  readonly Namespace: Namespace;
  readonly NetworkPolicy: NetworkPolicy;
  readonly PodDisruptionBudget: PodDisruptionBudget;
  readonly Service: Service;
}
